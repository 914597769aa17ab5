using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Reads a clause that tells of pressure by what is left of it: “no pressure left in the ram”, “gauge at zero”, “worked the lever till the pressure was gone”. It was let off, and how stands in the note.</summary>
internal static class PressureGone
{
    // “Gauge is down to zero”, without its fillers.
    private const int LongestAtZero = 5;

    /// <returns>Null where the clause says nothing of the kind, or only supposes it. “No pressure” by itself is a fault of the machine.</returns>
    public static Heard? Read(Clause clause, string line, PhraseBook book)
    {
        if (IsFault(clause, line, book))
        {
            return new Heard(clause, Shape.Remark, new Reading());
        }

        if (!clause.Terms.Any(term => IsPressure(term, line, book) || Is(term, WordKind.Gauges, line, book)) || clause.Terms.Any(term => term.Is(WordKind.NotDone) && !Is(term, WordKind.Untils, line, book) && !Is(term, WordKind.Gone, line, book)))
        {
            return null;
        }

        var until = clause.Terms.Index().FirstOrDefault(at => Is(at.Item, WordKind.Untils, line, book), (-1, null!)).Index;
        var end = clause with { Terms = [.. clause.Terms.Skip(until + 1)] };
        // “Until the pressure was gone”.
        var heard = NoneLeft(end, line, book) ?? AtZero(end, line, book, isUntil: until >= 0) ?? (until >= 0 && end.Terms.Count > 0 && ClauseReader.Read(end, line, book) is { Shape: Shape.Thing, Reading.Deed: Deed.Safe } safe ? safe : null);
        if (heard is not null && until >= 0)
        {
            clause.Terms[until].IsUsed = true;
        }

        return heard is null ? null : heard with { Clause = clause };
    }

    /// <summary>Whether what stands behind “until” tells of pressure: it is no supposition.</summary>
    public static bool IsTold(IReadOnlyList<Term> terms, int at, string line, PhraseBook book) => Is(terms[at], WordKind.Untils, line, book) && terms.Skip(at).Any(term => IsPressure(term, line, book) || Is(term, WordKind.Gauges, line, book));

    /// <summary>“Öldruck auf null”, “Öldruck weg”: a reading that is a fault, where the pressure is none that is let off by its name.</summary>
    private static bool IsFault(Clause clause, string line, PhraseBook book)
    {
        List<Term> terms = [.. clause.Terms.Where(term => !term.Is(WordKind.Fillers, WordKind.Article))];
        return terms.Count is >= 2 and <= LongestAtZero && !IsPressure(terms[0], line, book) && !Is(terms[0], WordKind.Gauges, line, book) && terms[0].Is(WordKind.Word)
            && (terms.Count > 2 && Is(terms[^1], WordKind.Zeros, line, book) && book.Of(terms[^2].Lower(line), WordKind.From) is not null && terms.SkipLast(2).All(term => term.Is(WordKind.Word) && book.Of(term.Lower(line), WordKind.Particles) is null)
                || terms.Count == 2 && IsOfKind(terms[0], line, book) && Is(terms[1], WordKind.Gone, line, book));
    }

    /// <summary>“Gauge at zero”, “pressure down to nought”. A gauge of anything else, as of fuel, is no gauge by itself.</summary>
    /// <param name="isUntil">Something was done until it was so.</param>
    private static Heard? AtZero(Clause clause, string line, PhraseBook book, bool isUntil)
    {
        List<Term> terms = [.. clause.Terms.Where(term => !term.Is(WordKind.Fillers, WordKind.Article))];
        if (terms.Count is < 2 or > LongestAtZero || !Is(terms[^1], WordKind.Zeros, line, book) || !(IsPressure(terms[0], line, book) || Is(terms[0], WordKind.Gauges, line, book) && (isUntil || IsUnderPressure(line[..clause.Terms[0].Start], book))))
        {
            return null;
        }

        foreach (var term in clause.Terms)
        {
            term.IsUsed = true;
        }

        return new Heard(clause, Shape.Thing, Of(clause, IsPressure(terms[0], line, book) ? terms[0].Text(line) : null, line, book));
    }

    /// <summary>What stands before names pressure, or what is under it: a fuel tank has a gauge as well.</summary>
    private static bool IsUnderPressure(string before, PhraseBook book) =>
        LineReader.Carried(before) is { Supply: null } || book.Cut(before).Any(token => book.Of(token.Lower, WordKind.Pressures) is not null);

    /// <summary>What was let off, where no place is named: what stands before in the line says of what it is the pressure.</summary>
    private static Reading Of(Clause clause, string? name, string line, PhraseBook book) => LineReader.Carried(line[..clause.Terms[0].Start]) switch
    {
        // “Air tank drained, gauge at zero”.
        { Supply: null } pressed => new Reading { Deed = Deed.Safe, Part = pressed.Said },
        // “Let the pressure off, gauge at zero”: of what, is not said.
        var carried => new Reading { Deed = Deed.Safe, Part = name ?? book.PlainWord(WordKind.Pressures, "", false), Supply = carried is { Supply: not SupplyKind.Oil } && !book.Has(carried.Said.ToLowerInvariant(), WordKind.Pressures) ? carried.Supply : null },
    };

    private static Heard? NoneLeft(Clause clause, string line, PhraseBook book)
    {
        List<Term> terms = [.. clause.Terms];
        var at = Past(0, term => term.Is(WordKind.Fillers) || Is(term, WordKind.There, line, book));
        if (at == terms.Count || !Is(terms[at], WordKind.None, line, book))
        {
            return null;
        }

        // “No more pressure”, “no pressure was left”.
        var name = Past(at + 1, term => Is(term, WordKind.Gone, line, book));
        var pressure = Past(name, term => !IsPressure(term, line, book) && (term.IsNameable || term.Is(WordKind.Supplies)));
        if (pressure == terms.Count || !IsPressure(terms[pressure], line, book))
        {
            return null;
        }

        var left = Past(pressure + 1, term => term.Is(WordKind.Fillers));
        var isLeft = left < terms.Count && Is(terms[left], WordKind.Gone, line, book);
        // “No pressure in it”.
        var isInside = left < terms.Count && Is(terms[left], WordKind.PressedIn, line, book);
        if (!isLeft && !isInside && name == at + 1)
        {
            return null;
        }

        // “Left in” is one term, and leads to the place all the same.
        var lead = isLeft && terms[left].Lower(line).Split(' ') is [var first, _, ..] ? terms[left].Start + first.Length : isLeft ? terms[left].End : terms[pressure].End;
        var end = Past(isLeft ? left + 1 : pressure + 1, term => term.Is(WordKind.From, WordKind.Article, WordKind.Fillers, WordKind.Sides, WordKind.Supplies, WordKind.Fluids) || term.IsNameable || Is(term, WordKind.Pronouns, line, book));
        var last = end - 1;
        while (terms[last].Is(WordKind.From, WordKind.Article, WordKind.Fillers))
        {
            last--;
        }

        foreach (var term in terms.Take(end))
        {
            term.IsUsed = true;
        }

        var said = line[terms[name].Start..terms[pressure].End];
        var place = last > left && last > pressure && !Is(terms[last], WordKind.Pronouns, line, book) ? line[lead..terms[last].End] : "";
        return new Heard(clause, Shape.Thing, place.Length > 0 ? new Reading { Deed = Deed.Safe, Part = said + place } : Of(clause, said, line, book));

        int Past(int from, Func<Term, bool> isPassed)
        {
            while (from < terms.Count && isPassed(terms[from]))
            {
                from++;
            }

            return from;
        }
    }

    /// <summary>“Öl|druck”, which is none by its whole name.</summary>
    public static bool IsOfKind(Term term, string line, PhraseBook book) => term.Lower(line) is var word && Enumerable.Range(1, word.Length - 1).Any(at => book.Of(word[at..], WordKind.Pressures) is not null);

    // “Hydraulic pressure”: by its last word.
    private static bool IsPressure(Term term, string line, PhraseBook book) => book.Of(term.Lower(line).Split(' ')[^1], WordKind.Pressures) is not null;

    private static bool Is(Term term, WordKind kind, string line, PhraseBook book) => book.Has(term.Lower(line), kind);
}
