using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>A line that may say that something fell into the machine: “dropped a washer into the bell housing”, “nut fell down the spark plug hole”. Only the person knows, so it is asked.</summary>
/// <param name="What">What fell, as it is said.</param>
/// <param name="Where">Into what; empty where that is not said.</param>
/// <param name="Rest">What else the line says.</param>
public sealed record FallenIn(string What, string Where, string Rest)
{
    private static readonly char[] s_signs = [',', ';', '.', ':', ' '];

    /// <summary>The first clause of the line that says so, of those that nothing else explains.</summary>
    /// <param name="isElsewhere">Whether a clause by itself says that it went into a tray, or was drained.</param>
    internal static FallenIn? Read(string line, PhraseBook book, Func<string, bool> isElsewhere)
    {
        Range? before = null;
        List<Range> clauses = [.. Clauses(line)];
        foreach (var (at, clause) in clauses.Index())
        {
            var text = line[clause];
            var isSought = clauses.Skip(at).Any(later => Says(line[later], book, WordKind.NotFound));
            if (isSought && before is { } off && IsFlown(text, book) && Named(line[off], book) is { Length: > 0 } flown)
            {
                // “Circlip off with the pliers, flew away, not found”: that it came off stays to be recorded.
                return new FallenIn(flown, "", $"{line[..clause.Start].TrimEnd(s_signs)}{line[clause.End..]}".Trim(s_signs));
            }

            if ((Of(text, book) ?? Dropped(text, book, isSought)) is var (what, where) && (IsOutOfSight(text, book) || !isElsewhere(text)))
            {
                // “Lost a washer, fell into the sump”: what it was stands in the clause before.
                var from = what.Length > 0 || before is null ? clause.Start : before.Value.Start;
                what = what.Length > 0 || before is null ? what : Lost(line[before.Value], book);
                if (what.Length > 0)
                {
                    // “Dropped a 13”.
                    what = what.All(char.IsAsciiDigit) && book.PlainWord(WordKind.Joints, Words<JointKind>.Of(JointKind.Bolt), false) is { } bolt ? $"{what} mm {bolt}" : what;
                    return new FallenIn(what, where, $"{line[..from].TrimEnd(s_signs)}{line[clause.End..]}".Trim(s_signs));
                }
            }

            before = clause;
        }

        return null;
    }

    /// <summary>From sign to sign; a point within a number is none.</summary>
    internal static IEnumerable<Range> Clauses(string line)
    {
        var start = 0;
        for (var at = 0; at <= line.Length; at++)
        {
            if (at == line.Length || (line[at] is ',' or ';' or '.' or ':' && (at + 1 == line.Length || line[at + 1] == ' ')))
            {
                yield return start..at;
                start = at + 1;
            }
        }
    }

    private static (string What, string Where)? Of(string clause, PhraseBook book)
    {
        var tokens = Tokenizer.Cut(clause);
        for (var at = 0; at < tokens.Count; at++)
        {
            if (book.At(tokens, at, WordKind.Falling) is not { } falling)
            {
                continue;
            }

            for (var into = at + falling.Words.Count; into < tokens.Count - 1; into++)
            {
                if (book.At(tokens, into, WordKind.Inside) is not { } inside || book.At(tokens, into, WordKind.InTheWay) is not null)
                {
                    continue;
                }

                // “A washer fell into …” has it in front, “dropped a washer into …” between.
                var between = Words(clause, tokens, at + falling.Words.Count, into, book);
                var what = between.Length > 0 ? between : Words(clause, tokens, 0, at, book);
                var where = Words(clause, tokens, into + inside.Words.Count, tokens.Count, book);
                return where.Length > 0 ? (what, where) : null;
            }

            if (at + falling.Words.Count == tokens.Count && Before(clause, tokens, at, book) is { } told)
            {
                return told;
            }
        }

        return null;
    }

    /// <summary>“Mutter runtergefallen”, “dropped a nut, can't find it”: into what is not said.</summary>
    /// <param name="isSought">The line says that it was not found; else only a word that means nothing but falling is taken for it.</param>
    private static (string What, string Where)? Dropped(string clause, PhraseBook book, bool isSought)
    {
        var tokens = Tokenizer.Cut(clause);
        var at = Enumerable.Range(0, tokens.Count).FirstOrDefault(at => book.At(tokens, at, WordKind.Falling) is not null && book.At(tokens, at, WordKind.WantedBefore) is null && book.At(tokens, at, WordKind.WantedBehind) is null && book.At(tokens, at, WordKind.Flags) is null, -1);
        if (at < 0 || !isSought && book.At(tokens, at)?.Kind == WordKind.Deeds)
        {
            return null;
        }

        // Said behind, or before.
        var behind = Words(clause, tokens, at + book.At(tokens, at, WordKind.Falling)!.Words.Count, tokens.Count, book);
        var what = behind.Length > 0 ? behind : Words(clause, tokens, 0, at, book);
        return IsSmall(what, book) ? (what, "") : null;
    }

    /// <summary>“Flew away”, and no more than that.</summary>
    private static bool IsFlown(string clause, PhraseBook book)
    {
        var tokens = Tokenizer.Cut(clause).SkipWhile(token => book.Of(token.Lower, WordKind.Pronouns, WordKind.Fillers) is not null).ToList();
        return book.At(tokens, 0, WordKind.Falling) is { } flown && tokens.Skip(flown.Words.Count).All(token => book.Of(token.Lower, WordKind.Particles, WordKind.Deeds, WordKind.From) is not null);
    }

    /// <summary>The fastener that a clause says came off; nothing where it names none.</summary>
    private static string Named(string clause, PhraseBook book)
    {
        var tokens = Tokenizer.Cut(clause);
        var end = Enumerable.Range(0, tokens.Count).FirstOrDefault(at => at > 0 && book.At(tokens, at) is { Kind: WordKind.Deeds or WordKind.DeedsOf or WordKind.Verbs or WordKind.From or WordKind.With }, tokens.Count);
        return Words(clause, tokens, 0, end, book) is var name && IsSmall(name, book) ? name : "";
    }

    private static bool IsSmall(string name, PhraseBook book) =>
        book.Of(name.ToLowerInvariant().Split(' ')[^1], WordKind.Joints, WordKind.NamedJoints, WordKind.Sundries) is { Value: not ("hose" or "pipe" or "connector" or "face") };

    /// <summary>“Dropped a bolt under the bench”: what lies under or behind something was not put there.</summary>
    private static bool IsOutOfSight(string clause, PhraseBook book) =>
        Tokenizer.Cut(clause) is var tokens && Enumerable.Range(0, tokens.Count).Any(at => book.At(tokens, at, WordKind.Inside) is { Value: "out_of_sight" });

    private static bool Says(string clause, PhraseBook book, WordKind kind) =>
        Tokenizer.Cut(clause) is var tokens && Enumerable.Range(0, tokens.Count).Any(at => book.At(tokens, at, kind) is not null);

    /// <summary>What a clause says was dropped; nothing where it says no such thing.</summary>
    private static string Lost(string clause, PhraseBook book)
    {
        var tokens = Tokenizer.Cut(clause);
        var at = Enumerable.Range(0, tokens.Count).FirstOrDefault(at => book.At(tokens, at, WordKind.Falling) is not null, -1);
        return at < 0 ? "" : Words(clause, tokens, at + book.At(tokens, at, WordKind.Falling)!.Words.Count, tokens.Count, book);
    }

    /// <summary>“Eine Scheibe ist in den Schacht gefallen”: what and where stand in front.</summary>
    private static (string What, string Where)? Before(string clause, List<Token> tokens, int falling, PhraseBook book)
    {
        for (var into = 1; into < falling - 1; into++)
        {
            if (book.At(tokens, into, WordKind.Inside) is { } inside && book.At(tokens, into, WordKind.InTheWay) is null)
            {
                var (what, where) = (Words(clause, tokens, 0, into, book), Words(clause, tokens, into + inside.Words.Count, falling, book));
                return what.Length > 0 && where.Length > 0 ? (what, where) : null;
            }
        }

        return null;
    }

    /// <summary>The words from one token up to another, without what says nothing in front and behind.</summary>
    private static string Words(string clause, List<Token> tokens, int from, int to, PhraseBook book)
    {
        while (from < to && book.Of(tokens[from].Lower, WordKind.Article, WordKind.Determiners, WordKind.Fillers) is not null)
        {
            from++;
        }

        while (from < to && book.Of(tokens[to - 1].Lower, WordKind.Fillers) is not null)
        {
            to--;
        }

        return from >= to ? "" : clause[tokens[from].Start..tokens[to - 1].End];
    }
}
