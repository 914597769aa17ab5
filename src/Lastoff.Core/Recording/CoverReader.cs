using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Reads a clause about what closes an opening for a time: “plugged the inlet with a rag”, “rag in the port”, “both ends capped”, “rag out of the inlet”.</summary>
internal sealed class CoverReader
{
    private readonly Clause _clause;
    private readonly string _line;
    private readonly PhraseBook _book;
    private readonly IReadOnlyList<Term> _terms;

    private CoverReader(Clause clause, string line, PhraseBook book) => (_clause, _line, _book, _terms) = (clause, line, book, clause.Terms);

    /// <returns>Null where the clause says nothing of the kind.</returns>
    public static Heard? Read(Clause clause, string line, PhraseBook book) =>
        clause.Terms.Any(term => term.Is(WordKind.NotDone) && !book.Has(term.Lower(line), WordKind.Closing) && book.Of(term.Lower(line), WordKind.Leaves) is null && !book.Has(term.Lower(line), WordKind.Leaves)) ? null : new CoverReader(clause, line, book).Read();

    /// <summary>The reading with the opening it leaves out taken from the one before; null when there is none.</summary>
    public static Reading? Whole(Reading cover, Reading? before) => Of(cover with { Name = null }, before) ?? (cover.Name is { } end ? cover with { Part = end, Name = null } : null);

    private static Reading? Of(Reading cover, Reading? before) => cover.Part is not null ? cover
        : before is null ? null
        : before.IsTurned() && before.Part is not null ? cover with { Part = before.Part }
        // “Hose off, one jubilee clip, capped”: the hose is.
        : before is { Kind: JointKind.Clamp or JointKind.Clip or JointKind.Tie, Part: { } held } ? cover with { Part = held }
        : before.Kind is not null ? cover with { Part = before.Name ?? RecordedThing.JointName(before) }
        : before.Part is not null ? cover with { Part = before.Part }
        : null;

    private Heard? Read()
    {
        var at = Find(term => term.Is(WordKind.Covering, WordKind.Uncovering));
        if (at < 0)
        {
            return ByClosing() ?? (_terms.Any(term => term.Is(WordKind.NotDone) && _book.Has(term.Lower(_line), WordKind.Closing)) ? null : ByCover(0, _terms.Count));
        }

        // “Plugged it back in” is a connector.
        if (_terms.Skip(at + 1).Any(term => term.Is(WordKind.Deeds, WordKind.Verbs, WordKind.DeedsOf) || _book.Of(term.Lower(_line), WordKind.Particles) is not null) || _terms[^1].Is(WordKind.From))
        {
            return null;
        }

        // “Stuffed two rags in the ports”, “rag stuffed in the inlet”; “covered in oil” is neither.
        return ByCover(at + 1, _terms.Count) ?? ByCover(0, at) ?? (at + 1 < _terms.Count && _terms[at + 1].Is(WordKind.From) ? null : ByVerb(at));
    }

    /// <summary>“Port closed with a plug”, “shut the inlet with a rag”: by such a word most of what is told was not done, so it takes a cover or an opening.</summary>
    private Heard? ByClosing()
    {
        var at = Find(term => _book.Has(term.Lower(_line), WordKind.Closing));
        if (at < 0)
        {
            return null;
        }

        var end = at + 1 < _terms.Count && _book.Has(_line[_terms[at].Start.._terms[at + 1].End].ToLowerInvariant(), WordKind.Closing) ? at + 2 : at + 1;
        var with = Find(term => term.Is(WordKind.With), end);
        var (from, to) = with > end ? (end, with) : (0, at);
        if (with < 0 || !IsClosed(from, to, with + 1, _terms.Count))
        {
            return null;
        }

        var cover = Name(with + 1, _terms.Count, leads: true);
        if (cover is null)
        {
            return null;
        }

        var name = Name(from, to, leads: false);
        foreach (var term in _terms.Skip(at).Take(end - at).Append(_terms[with]))
        {
            term.IsUsed = true;
        }

        return Told(Deed.Covered, name, cover);
    }

    /// <summary>Whether a rag or the like closed something, or a plug, a cap or a bolt an opening. Mud in a hose is a fault, and a tap that is shut no cover.</summary>
    private bool IsClosed(int from, int to, int cover, int end)
    {
        var opening = _terms.Skip(from).Take(to - from).LastOrDefault(term => !IsEmpty(term))?.Lower(_line);
        var isOpening = opening is not null && (_book.Has(opening, WordKind.Ends) || _book.Of(opening.Split(' ')[^1], WordKind.Openings) is not null);
        return Enumerable.Range(cover, Math.Max(0, end - cover)).Any(at => EndOfCover(at, end, WordKind.Covers) >= 0
            || isOpening && (EndOfCover(at, end, WordKind.HalfCovers) >= 0 || _terms[at].Is(WordKind.Joints, WordKind.NamedJoints)));
    }

    private Heard ByVerb(int at)
    {
        var with = Find(term => term.Is(WordKind.With), at + 1);
        if (with < 0 && Find(term => term.Is(WordKind.With)) is > 0 and var before && before < at && IsClosed(0, before, before + 1, at))
        {
            // “Öffnung mit einem sauberen Lappen verschlossen”: a language may end with its verb.
            (_terms[at].IsUsed, _terms[before].IsUsed) = (true, true);
            return Told(_terms[at].Is(WordKind.Covering) ? Deed.Covered : Deed.Uncovered, Name(0, before, leads: false), Name(before + 1, at, leads: true) ?? _terms[at].Value);
        }

        var end = with < 0 ? _terms.Count : with;
        // Said behind, or before: “capped the pipe”, “return line capped”.
        var behind = Name(at + 1, end, leads: false);
        var name = behind ?? Name(0, at, leads: false);
        var cover = with < 0 ? null : Name(with + 1, _terms.Count, leads: true);
        var verb = _terms[at];
        verb.IsUsed = true;
        if (with >= 0)
        {
            _terms[with].IsUsed = cover is not null;
        }

        return Told(verb.Is(WordKind.Covering) ? Deed.Covered : Deed.Uncovered, name, cover ?? verb.Value);
    }

    /// <summary>“Rag in the inlet”, “put a bung in the pipe”, “rag out of the inlet”, “took the rag from the inlet”.</summary>
    /// <param name="from">The stretch in which the cover is named.</param>
    private Heard? ByCover(int from, int to)
    {
        var first = Find(term => !IsEmpty(term) && !term.Is(WordKind.Number) && !IsRemoved(term), from);
        // “Red cap”: how it looks is a part of what it is called.
        var noun = first < 0 ? to : Find(term => !term.Is(WordKind.JointModifiers), first);
        var end = noun < 0 || noun >= to ? -1 : EndOfCover(noun, to, WordKind.Covers);
        // “Caps on both ends”; a cap by itself is a part.
        var isHalf = end < 0 && noun >= 0 && noun < to;
        end = isHalf ? EndOfCover(noun, to, WordKind.HalfCovers) : end;
        var next = end >= 0 && end == to ? Find(term => !term.Is(WordKind.Covering), end) : end;
        if (next < 0 || next >= _terms.Count)
        {
            return null;
        }

        if (next == _terms.Count - 1 && _terms.Take(first).All(term => IsEmpty(term) || term.Is(WordKind.Number)) && _book.Has(_terms[next].Lower(_line), WordKind.PutIn))
        {
            // “Hoses off, plugs in”: plugs are covers only by the hoses.
            UseUpTo(_terms.Count);
            return Told(Deed.Covered, null, _line[_terms[first].Start.._terms[end - 1].End]) with { SaysDeed = !isHalf };
        }

        var isOut = _terms.Take(first).Any(IsRemoved) || _terms[next] is { Kind: WordKind.Deeds, Value: "removed" } || _terms[next].Is(WordKind.From) && _book.Of(_terms[next].Lower(_line).Split(' ')[0], WordKind.Deeds) is { Value: "removed" };
        if (!isOut && !_terms[next].Is(WordKind.From) && !_book.Has(_terms[next].Lower(_line), WordKind.Leaves))
        {
            return null;
        }

        var cover = _line[_terms[first].Start.._terms[end - 1].End];
        var place = next + 1;
        while (place < _terms.Count && (_terms[place].Is(WordKind.From) || IsEmpty(_terms[place])))
        {
            place++;
        }

        // “Bung in it”.
        var isIt = place == _terms.Count && _terms.Skip(next + 1).Any(term => _book.Of(term.Lower(_line), WordKind.Pronouns) is not null)
            // “Bungs in both”.
            || place + 1 == _terms.Count && _terms[place].Is(WordKind.Number) && _book.Has(_terms[place].Lower(_line), WordKind.Ends);
        if (isHalf && (isOut || !isIt && !IsOver(next) && !IsEnds(place) && _book.Of(_terms[^1].Lower(_line), WordKind.Openings) is null))
        {
            return null;
        }

        if (isIt)
        {
            UseUpTo(place);
            return Told(isOut ? Deed.Uncovered : Deed.Covered, null, cover);
        }

        if (place >= _terms.Count || _terms[place].Is(WordKind.Tray, WordKind.Containers, WordKind.Trays))
        {
            return null;
        }

        if (Name(place, _terms.Count, leads: false) is not { } name)
        {
            return null;
        }

        UseUpTo(place);
        return Told(isOut ? Deed.Uncovered : Deed.Covered, name, cover);
    }

    private static bool IsRemoved(Term term) => term is { Kind: WordKind.Deeds or WordKind.Verbs, Value: "removed" };

    private void UseUpTo(int end)
    {
        for (var at = 0; at < end; at++)
        {
            _terms[at].IsUsed = true;
        }
    }

    private bool IsOver(int at) => _book.Has(_terms[at].Lower(_line), WordKind.CoversBy);

    private bool IsEnds(int at)
    {
        while (at < _terms.Count && _terms[at].Is(WordKind.Number))
        {
            at++;
        }

        return at < _terms.Count && _book.Has(_terms[at].Lower(_line), WordKind.Ends);
    }

    private int EndOfCover(int at, int to, WordKind kind)
    {
        // A cover may be several terms where its words mean other things elsewhere: “rubber plug”.
        for (var end = Math.Min(to, at + 3); end > at; end--)
        {
            if (_book.Has(_line[_terms[at].Start.._terms[end - 1].End].ToLowerInvariant(), kind))
            {
                return end;
            }
        }

        return -1;
    }

    private Heard Told(Deed deed, string? name, string cover)
    {
        var count = _terms.FirstOrDefault(term => term is { Kind: WordKind.Number, Number: > 0 and <= 100 } && term.Number % 1 == 0);
        foreach (var term in _terms.Where(term => IsEmpty(term) || ReferenceEquals(term, count)))
        {
            term.IsUsed = true;
        }

        var isEnds = name is not null && _book.Has(name.ToLowerInvariant(), WordKind.Ends);
        return new Heard(_clause, Shape.Thing, new Reading { Deed = deed, Part = isEnds ? null : name, Name = isEnds ? name : null, Cover = cover, Count = count is null ? null : (int)count.Number }) { SaysDeed = true };
    }

    /// <summary>The words of a stretch that name something; null when none do.</summary>
    /// <param name="leads">Whether an article may stand before it only: “with a rag”.</param>
    private string? Name(int from, int to, bool leads)
    {
        var words = new List<Term>();
        foreach (var term in _terms.Skip(from).Take(to - from).SkipWhile(term => IsEmpty(term) || !leads && term.Is(WordKind.Number, WordKind.From)))
        {
            var isBehindOf = words.Count > 0 && IsOf(words[^1]);
            if (isBehindOf && IsEmpty(term))
            {
                continue;
            }

            if (IsEmpty(term) || term.Is(WordKind.With, WordKind.Deeds, WordKind.Verbs, WordKind.Hedges) || term.Is(WordKind.From) && !IsOf(term))
            {
                break;
            }

            words.Add(term);
        }

        words.ForEach(term => term.IsUsed = true);
        // “Both ends of the pipe” are the pipe's.
        if (words.FindIndex(IsOf) is > 0 and var of && of < words.Count - 1 && _book.Has(_line[words[0].Start..words[of - 1].End].ToLowerInvariant(), WordKind.Ends))
        {
            words.RemoveRange(0, of + 1);
        }

        return words.Count == 0 ? null : _line[words[0].Start..words[^1].End];
    }

    private int Find(Func<Term, bool> isIt, int from = 0)
    {
        for (var at = from; at < _terms.Count; at++)
        {
            if (isIt(_terms[at]))
            {
                return at;
            }
        }

        return -1;
    }

    private bool IsOf(Term term) => _book.Of(term.Lower(_line), WordKind.OfThem) is not null;

    private bool IsEmpty(Term term) => term.Is(WordKind.Fillers, WordKind.Article) || _book.Of(term.Lower(_line), WordKind.Pronouns) is not null;
}
