using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Tells counts from sizes among the plain numbers of a clause.</summary>
/// <remarks>
/// Heads of 13 mm and more are told by size and hardly ever counted behind their name; up to 6 it is the other way round. Between, both are heard.
/// Widths across flats after ISO 272 and ISO 4014/4017 (7, 8, 10, 13, 16, 18, 21, 24 mm ..) and the older 9, 11, 12, 14, 15, 17, 19, 22 mm; from memory.
/// </remarks>
internal static class Counting
{
    private const int MostToCount = 6;
    private const int LeastToMeasure = 13;
    private const int LeastHead_mm = 4;
    private const int MostCount = 1000;
    private const int WidestHead_mm = 200;
    private const int MostInWords = 100;

    /// <summary>How many a figure or a word says by itself; null where it is no whole number from 1 to 100.</summary>
    public static int? Of(Token word, PhraseBook book) => word.Number is { } figure and >= 1 and <= MostInWords && !word.IsFraction && figure == Math.Floor(figure) ? (int)figure
        : book.Of(word.Lower, WordKind.Numbers) is { } spoken && int.TryParse(spoken.Value, System.Globalization.CultureInfo.InvariantCulture, out var count) ? count
        : null;

    /// <param name="head">The joint the clause speaks of; null when it names none.</param>
    public static (Reading Reading, Term? Open) Take(Clause clause, Reading reading, Term? head, PhraseBook book, string line)
    {
        Term? open = null;
        var terms = clause.Terms;
        for (var at = 0; at < terms.Count; at++)
        {
            if (!terms[at].Is(WordKind.Number) || terms[at].IsUsed)
            {
                continue;
            }

            // “One of four bolts”: how many there are is kept in the note.
            if (IsWhole(terms, at, book, line) || IsForEach(terms, at, book, line) || IsHow(terms, at) || IsMark(terms, at, book, line))
            {
                continue;
            }

            var number = terms[at].Number;
            if (number == reading.Count && terms[at].IsSpoken && at + 1 < terms.Count && terms[at + 1].Is(WordKind.Deeds))
            {
                // “Two nuts on the flange, both off”.
                terms[at].IsUsed = true;
                continue;
            }

            if (number % 1 != 0 || number > MostCount)
            {
                if (reading.Across is null && number <= WidestHead_mm && head is not null)
                {
                    reading = reading with { Across = Size.FromMillimetres(number) };
                    terms[at].IsUsed = true;
                }

                continue;
            }

            var (meant, isOpen) = Meaning(terms, at, reading, head, book, line);
            if (isOpen)
            {
                open = terms[at];
                terms[at].IsUsed = true;
            }
            else if (meant is not null)
            {
                reading = meant;
                terms[at].IsUsed = true;
            }
        }

        // “A nut”, “a 10 mm bolt”.
        if (reading.Count is null && open is null && head is { IsPlural: false } && HasArticle(terms, head))
        {
            reading = reading with { Count = 1 };
        }

        return (reading, open);
    }

    private static bool IsWhole(IReadOnlyList<Term> terms, int at, PhraseBook book, string line)
    {
        at--;
        while (at > 0 && terms[at].Is(WordKind.Fillers))
        {
            at--;
        }

        return at > 0 && terms[at - 1].Is(WordKind.Number) && terms[at].Is(WordKind.From) && IsOfThem(terms[at], book, line);
    }

    // “Hanging by one screw”: it stands in the note.
    private static bool IsHow(IReadOnlyList<Term> terms, int at) => at > 1 && terms[at - 1].Is(WordKind.With) && terms[at - 2] is { Kind: WordKind.Deeds, Value: "aside" };

    // “Five on each”: of which there are some. “Ten minutes” are nothing that is counted.
    private static bool IsForEach(IReadOnlyList<Term> terms, int at, PhraseBook book, string line) => at + 1 < terms.Count
        && (terms[at + 1].Is(WordKind.Distributes) || Marks(terms[at + 1], WordKind.Spans, book, line));

    // “Tagged 1 to 6”; “two number thirteen bolts” are two.
    private static bool IsMark(IReadOnlyList<Term> terms, int at, PhraseBook book, string line) => at > 0
        && !(at > 1 && terms[at - 2].Is(WordKind.Number) && at + 1 < terms.Count && terms[at + 1].Is(WordKind.Joints, WordKind.NamedJoints))
        && (Marks(terms[at - 1], WordKind.Markings, book, line) || at > 2 && terms[at - 2].Is(WordKind.Number) && Marks(terms[at - 3], WordKind.Markings, book, line));

    private static bool IsOfThem(Term term, PhraseBook book, string line) =>
        term.Is(WordKind.From, WordKind.OfThem) && book.Of(term.Text(line).ToLowerInvariant(), WordKind.OfThem) is not null;

    private static bool HasArticle(IReadOnlyList<Term> terms, Term head)
    {
        var at = 0;
        while (at < terms.Count && !ReferenceEquals(terms[at], head))
        {
            at++;
        }

        do
        {
            at--;
        }
        while (at >= 0 && terms[at].Is(WordKind.Across, WordKind.Thread, WordKind.Drive, WordKind.JointModifiers, WordKind.Flags, WordKind.Sides));
        return at >= 0 && terms[at].Is(WordKind.Article);
    }

    /// <summary>A number behind the name, or in a clause of its own.</summary>
    /// <returns>Null when there is no room for it.</returns>
    public static Reading? Behind(Reading known, Term said, bool isPlural, bool isOwnClause)
    {
        var number = (int)said.Number;
        if (known.Kind is not (null or JointKind.Bolt or JointKind.Nut or JointKind.Stud or JointKind.Screw))
        {
            // “Banjo 17”: one, and its size.
            var isSize = known is { Kind: JointKind.Pipe or JointKind.Clamp, Across: null } && !isPlural && number is > MostToCount and <= WidestHead_mm;
            return isSize ? known with { Across = Size.FromMillimetres(number) } : known.Count is null ? known with { Count = number } : null;
        }

        if (known.Count is not null)
        {
            return known.Across is null && number is >= LeastHead_mm and <= WidestHead_mm ? known with { Across = Size.FromMillimetres(number) } : null;
        }

        if (known.Across is not null || known.Drive?.Number is not null || number <= MostToCount || isPlural && said.IsSpoken)
        {
            return known with { Count = number };
        }

        return number is >= LeastToMeasure and <= WidestHead_mm && (!isPlural || isOwnClause) ? known with { Across = Size.FromMillimetres(number) }
            : known.Question is null ? known with { Question = new Question(Doubt.CountOrHead, number) }
            : null;
    }

    private static (Reading? Reading, bool IsOpen) Meaning(IReadOnlyList<Term> terms, int at, Reading reading, Term? head, PhraseBook book, string line)
    {
        var number = (int)terms[at].Number;
        Reading? counted = reading.Count is null ? reading with { Count = number } : null;
        if (at > 0 && (terms[at - 1].Is(WordKind.Times) || at > 1 && terms[at - 2].Is(WordKind.Thread) && Marks(terms[at - 1], WordKind.LengthLeads, book, line)) || terms[at].IsGroup)
        {
            if (counted is not null)
            {
                Use(terms, at - 1, WordKind.Times, WordKind.With);
            }

            return (counted, false);
        }

        var next = at + 1;
        if (Use(terms, next, WordKind.Times) || Use(terms, next, WordKind.Them))
        {
            return (counted, false);
        }

        // “Allen 6”: never a count.
        if (at > 0 && terms[at - 1] is { Kind: WordKind.Drive, IsPlural: false, Drive: { Shape: DriveShape.InnerHex, Number: null } } && next >= terms.Count)
        {
            return (Sized(reading, number), false);
        }

        var isPiece = next < terms.Count && book.Of(terms[next].Text(line).ToLowerInvariant(), WordKind.OfThem) is not null;
        if (isPiece && (terms[next].Is(WordKind.OfThem) || Past(terms, next + 1, WordKind.Fillers) is var measured && measured < terms.Count && IsMeasured(terms[measured])))
        {
            terms[next].IsUsed = true;
            return (counted ?? Sized(reading, number), false);
        }

        if (isPiece && head is not null && head.Start < terms[at].Start)
        {
            return (counted ?? Sized(reading, number), false);
        }

        next = Past(terms, next, WordKind.Fillers);
        return next >= terms.Count || !IsNamed(terms[next]) && !IsMeasured(terms[next]) ? (null, true)
            : BeforeName(terms, at, next, reading, number, head);
    }

    private static int Past(IReadOnlyList<Term> terms, int at, WordKind kind)
    {
        while (at < terms.Count && terms[at].Is(kind))
        {
            at++;
        }

        return at;
    }

    private static (Reading?, bool) BeforeName(IReadOnlyList<Term> terms, int at, int next, Reading reading, int number, Term? head)
    {
        Reading? counted = reading.Count is null ? reading with { Count = number } : null;
        // “24 hex key” is one size, “two allens” are two.
        if (terms[next] is { Kind: WordKind.Drive, IsPlural: false, Drive: { Shape: DriveShape.InnerHex or DriveShape.Hex, Number: null } drive } && (head is null || head.Start < terms[next].Start || !head.IsPlural && number > MostToCount)
            && (drive.Shape == DriveShape.InnerHex || (head is { IsPlural: false } || head is null && number > MostToCount)))
        {
            return (Sized(reading, number) ?? counted, false);
        }

        if (terms[next].Is(WordKind.Across, WordKind.Thread, WordKind.Drive, WordKind.Number))
        {
            return (counted, false);
        }

        var isOfHead = head is not null && head.Start >= terms[next].Start;
        // “Off both ends”, “nuts one under the cap”: no count of what was named before.
        if (!isOfHead && terms[next].Is(WordKind.Word, WordKind.Parts) && terms.Take(at).Any(term => term.IsNameable))
        {
            // “4 nuts 13 exhaust manifold”.
            return (head is not null && at > 0 && ReferenceEquals(terms[at - 1], head) && (counted is null || !head.IsPlural) && number > MostToCount ? Sized(reading, number) : null, false);
        }

        // “Nut 24 threadlocked”.
        if (!isOfHead && head is { IsPlural: false } && terms[next].Is(WordKind.Flags) && number > MostToCount)
        {
            return (null, true);
        }

        if (isOfHead && counted is null)
        {
            return (Sized(reading, number), false);
        }

        return (isOfHead && !head!.IsPlural && number > MostToCount && ReferenceEquals(head, terms[next]) ? Sized(reading, number) ?? counted : counted, false);
    }

    private static Reading? Sized(Reading reading, int number) => reading.Across is null && number <= WidestHead_mm ? reading with { Across = Size.FromMillimetres(number) } : null;

    private static bool Marks(Term term, WordKind kind, PhraseBook book, string line) => book.Of(term.Lower(line), kind) is not null;

    private static bool Use(IReadOnlyList<Term> terms, int at, params ReadOnlySpan<WordKind> kinds)
    {
        var found = at >= 0 && at < terms.Count && terms[at].Is(kinds);
        if (found)
        {
            terms[at].IsUsed = true;
        }

        return found;
    }

    private static bool IsMeasured(Term term) => term.Is(WordKind.Across, WordKind.Thread, WordKind.Drive, WordKind.Number, WordKind.Joints, WordKind.NamedJoints, WordKind.JointModifiers);

    private static bool IsNamed(Term term) => term.Is(WordKind.Joints, WordKind.NamedJoints, WordKind.JointModifiers, WordKind.Word, WordKind.Parts, WordKind.Sides,
        WordKind.LeftHand, WordKind.Tools, WordKind.Fluids, WordKind.Supplies, WordKind.BatteryLeads, WordKind.TrayLooks) || term is { Kind: WordKind.Flags, IsUsed: true, Value: "captive" or "one_time" or "sealed" };
}
