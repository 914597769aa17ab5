namespace Lastoff.Core.Recording;

/// <summary>What a line says in passing of things that the job needs: “gasket is shot”, “washer missing”, “needs a new O-ring”; or that they are there: “got the new gasket”.</summary>
/// <remarks>It reads beside the reader of clauses, which has such words for a remark, and a reading of its own comes of it.</remarks>
internal sealed class WantedThings(string line, PhraseBook book)
{
    private readonly bool _endsInWanted = book.Cut(line) is [.., var verb] && book.Of(verb.Lower, WordKind.WantedBehind) is not null;

    /// <summary>A longer name is a story.</summary>
    private const int LongestName = 4;

    /// <param name="isElsewhere">Whether words by themselves say something that stands open otherwise, or tell of a fluid.</param>
    /// <returns>Each reading with the words it comes from.</returns>
    public IEnumerable<(Reading Reading, string Said)> Read(Func<string, bool> isElsewhere)
    {
        List<Token> before = [];
        // “Pump and gasket to be renewed”: what a list names in front.
        List<(Reading Reading, string Said)> listed = [];
        // “Order a new bolt and a washer”: whether more of what is asked for may follow.
        var (isOrdered, isNeeded) = (false, false);
        foreach (var (joined, stretch) in Stretches())
        {
            var tokens = WithoutDuty(stretch);
            if ((isOrdered && joined != Joined.Stop || isNeeded && joined == Joined.And) && More(tokens, joined) is { } more && !isElsewhere(more.Said))
            {
                yield return more;
                continue;
            }

            (isOrdered, isNeeded) = (Ordered.ThingsFrom(tokens, book) is not null, tokens.Count > 0 && Before(tokens, 0) is { Deed: Deed.Wanted });
            if (Of(tokens) is { } told && !isElsewhere(told.Said))
            {
                if (told.Reading.Part is not null && IsAsked(tokens))
                {
                    foreach (var (reading, said) in listed)
                    {
                        yield return (reading with { Deed = told.Reading.Deed }, said);
                    }
                }

                yield return told.Reading is { Part: null, Of: null } && (Worn(before) ?? WornSeal(before) ?? Named(before, told.Reading)) is { } named ? (named with { Deed = told.Reading.Deed }, told.Said) : told;
            }
            else if (Spent(tokens, before) is { } spent)
            {
                yield return (spent with { Deed = Deed.Wanted }, line[tokens[0].Start..tokens[^1].End]);
            }

            if (Of(tokens) is null && tokens.Count > 0 && Thing(tokens, 0, tokens.Count, null) is { Part: not null } name && Worn(tokens) is null && !Enumerable.Range(0, tokens.Count).Any(at => tokens[at].Number is not null && !(at > 0 && book.Of(tokens[at - 1].Lower, WordKind.Marks) is not null) || IsWorn(tokens, at, tokens.Count)))
            {
                listed.Add((name, line[tokens[0].Start..tokens[^1].End]));
            }
            else
            {
                listed.Clear();
            }

            before = tokens;
        }
    }

    private bool IsAsked(List<Token> tokens) => tokens.Index().Any(at => book.At(tokens, at.Index, WordKind.WantedBehind) is { Value: "asked" });

    /// <summary>“Muss eine Dichtung bestellen”, where the line ends with its verb: what is to be had is not supposed.</summary>
    private List<Token> WithoutDuty(List<Token> tokens) => _endsInWanted
        ? [.. tokens.SkipWhile(token => book.Of(token.Lower, WordKind.NotDone) is not null && book.Of(token.Lower, WordKind.OrderingLeads) is not null)] : tokens;

    /// <summary>One more of what is to be had: a name, and nothing that was done to it or found at it.</summary>
    private (Reading Reading, string Said)? More(List<Token> tokens, Joined joined) => tokens.Count > 0 && (joined == Joined.And || Ordered.BeginsThing(tokens[0], book))
        && !tokens.Index().Any(at => book.At(tokens, at.Index) is { Kind: WordKind.Deeds or WordKind.DeedsOf or WordKind.Verbs or WordKind.Flags or WordKind.Stuck or WordKind.NotDone or WordKind.Remarks or WordKind.Trays } || Behind(tokens, at.Index) is not null)
        && Thing(tokens, 0, tokens.Count, null) is { Part: not null } thing ? (thing with { Deed = Deed.Wanted }, line[tokens[0].Start..tokens[^1].End]) : null;

    /// <summary>From sign to sign, and from one joining word to the next, each with how it hangs on the one before.</summary>
    private IEnumerable<(Joined Joined, List<Token> Tokens)> Stretches()
    {
        var tokens = Tokenizer.Cut(line);
        var joined = Joined.Stop;
        List<Token> stretch = [];
        for (var at = 0; at < tokens.Count;)
        {
            var phrase = book.At(tokens, at);
            var joining = phrase is { Kind: WordKind.And or WordKind.Breaks or WordKind.Stops or WordKind.Forgotten } ? phrase.Words.Count : tokens[at].Lower is "," or ";" or "." or ":" ? 1 : 0;
            if (joining == 0)
            {
                // A phrase stays whole: “hin und her”.
                stretch.AddRange(tokens[at..(at += phrase?.Words.Count ?? 1)]);
                continue;
            }

            yield return (joined, stretch);
            joined = phrase is { Kind: WordKind.And } ? Joined.And : phrase is null && tokens[at].Lower == "," ? Joined.Comma : Joined.Stop;
            (stretch, at) = ([], at + joining);
        }

        yield return (joined, stretch);
    }

    private (Reading Reading, string Said)? Of(List<Token> tokens)
    {
        var isOrdered = Ordered.ThingsFrom(tokens, book) is not null;
        for (var at = 0; at < tokens.Count; at++)
        {
            if (!isOrdered && IsSupposed(tokens, at))
            {
                return null;
            }

            if (Behind(tokens, at) is { } behind && Thing(tokens, NameFrom(tokens, at), at, behind.Of) is { } told)
            {
                return (told with { Deed = behind.Deed }, line[tokens[NameFrom(tokens, at)].Start..tokens[^1].End]);
            }

            // “Got the pump off” is another thing, and “renew on refit” is no name.
            if (Before(tokens, at) is { } before && !(before.From < tokens.Count && IsFrom(tokens, before.From)) && (before.Deed == Deed.Wanted || !tokens.Skip(before.From).Index().Any(rest => book.At(tokens, before.From + rest.Index) is { Kind: WordKind.Deeds or WordKind.DeedsOf })) && Thing(tokens, before.From, tokens.Count, null) is { } named)
            {
                return (named with { Deed = before.Deed }, line[tokens[at].Start..tokens[^1].End]);
            }
        }

        return null;
    }

    /// <summary>“Cover O-ring squashed flat”, “shaft seal out, bin”: a seal that is told of so has to be new.</summary>
    private Reading? Spent(List<Token> tokens, List<Token> before)
    {
        if (tokens.Index().Any(at => IsSupposed(tokens, at.Index)))
        {
            return null;
        }

        var named = SpentSeal.NameEnd(tokens, book) is { } end ? Thing(tokens, NameFrom(tokens, end), end, null) : SpentSeal.IsSpent(tokens, 0, book) ? CameOff(before) : null;
        return named is { Part: { } name } && LineReader.IsSeal(name) ? named with { Part = OldOnes.Plain(name, book) } : null;
    }

    /// <summary>What a stretch says came off: “shaft seal prised out”, “dug out the seal”, or the name and no more.</summary>
    private Reading? CameOff(List<Token> tokens)
    {
        var from = NameFrom(tokens, tokens.Count);
        var end = Enumerable.Range(0, tokens.Count).FirstOrDefault(at => at > 0 && book.At(tokens, at) is { Kind: WordKind.Deeds or WordKind.DeedsOf or WordKind.Verbs }, tokens.Count);
        return from < tokens.Count ? Thing(tokens, from, tokens.Count, null) : tokens.Count > 0 ? Thing(tokens, 0, end, null) : null;
    }

    /// <summary>“Washer flattened, needs a new one”: the thing that was looked at just before.</summary>
    private Reading? Worn(List<Token> tokens)
    {
        var end = tokens.Count;
        while (end > 0 && Enumerable.Range(0, end).FirstOrDefault(at => IsWorn(tokens, at, end), -1) is >= 0 and var state)
        {
            end = state;
        }

        return end > 0 && end < tokens.Count ? Thing(tokens, 0, end, null) : null;
    }

    /// <summary>“Nipple cracked O-ring, new one wanted”: the word for how it is may stand before what it is said of.</summary>
    private Reading? WornSeal(List<Token> tokens)
    {
        var at = Enumerable.Range(0, tokens.Count).FirstOrDefault(at => book.At(tokens, at) is { Kind: WordKind.Flags, Value: "broken" }, tokens.Count);
        var from = at < tokens.Count ? at + book.At(tokens, at)!.Words.Count : tokens.Count;
        return from < tokens.Count && Thing(tokens, from, tokens.Count, at > 0 ? Words(tokens, 0, at) : null) is { Part: { } name } seal && LineReader.IsSeal(name) ? seal : null;
    }

    /// <summary>“Union undone, copper washer, new one needed”: the thing that was named just before, and of which nothing else is said. “Two seals, both shot” are two.</summary>
    private Reading? Named(List<Token> tokens, Reading told)
    {
        var name = tokens.SkipWhile(IsLeading).ToList();
        // “Four 10s, one missing” names nothing.
        name.RemoveRange(0, name.Count > 0 && CountOf(name[0]) is not null ? 1 : 0);
        return name is [{ IsGlued: false }, ..] && name.Index().All(at => name[at.Index].Number is null && (book.At(name, at.Index) ?? book.Of(at.Item.Lower, WordKind.Joints)) is null or { Kind: WordKind.Parts or WordKind.Sundries or WordKind.Joints or WordKind.NamedJoints or WordKind.JointModifiers or WordKind.Sides })
            && Thing(tokens, 0, tokens.Count, null) is { Part: not null } thing ? thing with { Count = told.Count ?? thing.Count } : null;
    }

    /// <summary>Whether a word of how a thing looks stands from one token up to another.</summary>
    private bool IsWorn(List<Token> tokens, int from, int to) =>
        (book.At(tokens, from, WordKind.Worn) ?? book.At(tokens, from, WordKind.Flags) ?? book.At(tokens, from, WordKind.WantedBehind)) is { } state && from + state.Words.Count == to;

    /// <summary>“If the gasket is shot”, “no washer missing”.</summary>
    private bool IsSupposed(List<Token> tokens, int at) =>
        book.At(tokens, at, WordKind.WantedBehind) is null && book.At(tokens, at, WordKind.WantedBefore) is null && book.At(tokens, at, WordKind.HereBefore) is null
        && (book.At(tokens, at, WordKind.NotDone) ?? book.At(tokens, at, WordKind.Nots) ?? book.At(tokens, at, WordKind.None)) is not null;

    private (Deed Deed, string? Of)? Behind(List<Token> tokens, int at)
    {
        // “Hin und her” is not “hin”.
        if (book.At(tokens, at, WordKind.WantedBehind) is { } wanted && !HadNeed.Says(tokens, at, wanted, book) && !(book.At(tokens, at) is { Kind: WordKind.Hedges } longer && longer.Words.Count > wanted.Words.Count))
        {
            var rest = at + wanted.Words.Count;
            return (Deed.Wanted, rest < tokens.Count && book.At(tokens, rest, WordKind.From) is { } from ? Words(tokens, rest + from.Words.Count, tokens.Count) : null);
        }

        if (at == 0 && book.Of(tokens[0].Lower, WordKind.NewOnes) is not null && tokens is [_, var one] && (CountOf(one) is not null || book.Of(one.Lower, WordKind.Ones) is not null))
        {
            // “Seal out, scored, new one”.
            return (Deed.Wanted, null);
        }

        return book.At(tokens, at, WordKind.HereBehind) is { } here && at + here.Words.Count == tokens.Count ? (Deed.Here, null) : null;
    }

    private (Deed Deed, int From)? Before(List<Token> tokens, int at) =>
        at + 2 < tokens.Count && book.Of(tokens[at].Lower, WordKind.Needs) is not null && CountOf(tokens[at + 1]) is not null && book.Of(tokens[at + 2].Lower, WordKind.NewOnes) is not null ? (Deed.Wanted, at + 1) :
        book.At(tokens, at, WordKind.WantedBefore) is { } wanted ? (Deed.Wanted, at + wanted.Words.Count)
        : book.At(tokens, at, WordKind.HereBefore) is { } here ? (Deed.Here, at + here.Words.Count)
        : at == 0 && Ordered.ThingsFrom(tokens, book) is { } ordered ? (Deed.Wanted, ordered)
        : null;

    /// <summary>“Lid off gasket torn”: what was done before it names nothing of it, but for “bolt off the guard missing”.</summary>
    private int NameFrom(List<Token> tokens, int to)
    {
        var from = 0;
        for (var at = 0; at < to; at++)
        {
            if (book.At(tokens, at) is { Kind: WordKind.Deeds or WordKind.DeedsOf } deed && !(at > 0 && at + deed.Words.Count < to && IsFrom(tokens, at) && IsLeading(tokens[at + deed.Words.Count])))
            {
                from = at + deed.Words.Count;
            }
        }

        return Math.Min(from, to);
    }

    /// <summary>The thing that words name, how many of it, and of what.</summary>
    private Reading? Thing(List<Token> tokens, int from, int to, string? of)
    {
        var end = Enumerable.Range(from + 1, Math.Max(0, to - from - 1)).FirstOrDefault(at => IsFrom(tokens, at), to);
        if (end < to && of is null)
        {
            of = Words(tokens, end + book.At(tokens, end, WordKind.From)!.Words.Count, to);
        }

        while (from < end && (IsLeading(tokens[from]) || book.Of(tokens[from].Lower, WordKind.NewOnes) is not null))
        {
            from++;
        }

        int? count = null;
        if (from < end && CountOf(tokens[from]) is { } number && !(from + 1 < end && book.Of(tokens[from + 1].Lower, WordKind.Units) is not null))
        {
            (count, from) = (number, from + 1);
        }

        while (from < end && book.Of(tokens[from].Lower, WordKind.NewOnes) is not null)
        {
            from++;
        }

        // “Cover bolt M8 by 25”: its size is no part of the name; that of an “M12 bolt” is.
        var named = from;
        while (named < end && IsSize(tokens, named))
        {
            named++;
        }

        end = Enumerable.Range(named + 1, Math.Max(0, end - named - 1)).FirstOrDefault(at => tokens[at].Number is not null || tokens[at].Lower is "m" && at + 1 < end && tokens[at + 1].Number is not null, end);
        var words = tokens[Math.Min(named, end)..end];
        if (words.Count > 1 && IsOne(words[^1]) && OneOfThem.IsWhich(line[words[0].Start..words[^2].End], book))
        {
            // “Top left one missing”.
            return new Reading { Count = count ?? CountOf(words[^1]), Of = of };
        }

        // “Nine 8 mil bolts one missing”.
        if (named > from && (words.Count == 0 || CountOf(words[^1]) is not null))
        {
            return null;
        }

        if (words.TrueForAll(word => IsLeading(word) || book.Of(word.Lower, WordKind.Pronouns, WordKind.Ones, WordKind.Them) is not null))
        {
            // “Four 10s, one missing”, “pump off, it's shot”: what was told before.
            return new Reading { Count = count, Of = of };
        }

        if (words.Count > 0 && book.Has(string.Join(' ', words.Where(word => !IsLeading(word)).Select(word => word.Lower)), WordKind.Features))
        {
            // “Lip torn”, “lip of the seal torn”: it is the seal that has to be new.
            return new Reading { Part = of };
        }

        return words.Count <= LongestName && words.Exists(word => char.IsLetter(word.Lower[0])) && !words.Exists(IsNoName) && book.Of(words[^1].Lower, WordKind.Fluids) is null ? new Reading { Part = Words(tokens, from, end), Count = count, Of = of } : null;
    }

    /// <summary>Whether a token is of a size: “M12”, “M8x40”, “13 mm”.</summary>
    private bool IsSize(List<Token> tokens, int at) => tokens[at].Number is not null || book.Of(tokens[at].Lower, WordKind.Units) is not null
        || book.Of(tokens[at].Lower, WordKind.Marks, WordKind.Times) is not null && at + 1 < tokens.Count && tokens[at + 1].Number is not null;

    private bool IsOne(Token word) => CountOf(word) == 1 || book.Of(word.Lower, WordKind.Ones) is not null;

    private bool IsNoName(Token word) => book.Of(word.Lower, WordKind.Pronouns, WordKind.Spans, WordKind.Deeds, WordKind.DeedsOf, WordKind.Units, WordKind.NotDone, WordKind.Nots, WordKind.Remarks) is not null;

    private bool IsFrom(List<Token> tokens, int at) => book.At(tokens, at, WordKind.From) is not null;

    private bool IsLeading(Token word) => book.Of(word.Lower, WordKind.Article, WordKind.Determiners, WordKind.Fillers) is not null;

    private int? CountOf(Token word) => Counting.Of(word, book);

    /// <summary>The words from one token up to another, without what says nothing in front and behind; null for none.</summary>
    private string? Words(List<Token> tokens, int from, int to)
    {
        while (from < to && IsLeading(tokens[from]))
        {
            from++;
        }

        while (from < to && IsLeading(tokens[to - 1]))
        {
            to--;
        }

        return from >= to ? null : line[tokens[from].Start..tokens[to - 1].End];
    }
}
