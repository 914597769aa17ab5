using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Reads a clause that says that the machine was made still: “engine off”, “key out”, “PTO disengaged”. Nothing of it has to come home.</summary>
internal static class StillReader
{
    private const string Key = "key";
    // “Plug pulled at the wall”: safe, and put back at the end.
    private const string Current = "current";
    // Said of what comes off as well, then with its fasteners behind it.
    private const string Machine = "machine";

    /// <returns>Null where the clause says nothing of the kind, or more than that: “engine off its mounts”. The reading is for where the thing came off after all; it names none where it never does.</returns>
    public static Heard? Read(Clause clause, string line, PhraseBook book)
    {
        List<Term> terms = [.. clause.Terms.Where(term => !term.Is(WordKind.Fillers, WordKind.Article))];
        if (book.Phrase(string.Join(' ', terms.Select(term => term.Lower(line))), WordKind.Stilled) is not { } phrase)
        {
            return null;
        }

        if (phrase.Value == Current)
        {
            return OfCurrent(clause, terms, line);
        }

        return new Heard(clause, phrase.Value == Key ? Shape.Key : Shape.Still, new Reading { Deed = Deed.Off, Part = phrase.Value is Key or Machine ? terms[0].Text(line) : null });
    }

    /// <summary>“Mains plug pulled”, “plug pulled at the wall”: it is called by what was pulled, and where that sat stands in the note.</summary>
    private static Heard OfCurrent(Clause clause, List<Term> terms, string line)
    {
        var from = terms.FindIndex(term => !IsDeed(term));
        // “Unplugged from the mains”.
        from += from >= 0 && from + 1 < terms.Count && terms[from].Is(WordKind.From) && terms[from + 1].Is(WordKind.Supplies) ? 1 : 0;
        var called = from < 0 ? [] : terms.Skip(from).TakeWhile(term => !IsDeed(term) && !term.Is(WordKind.From)).ToList();
        var place = terms.FindIndex(Math.Max(0, from), term => term.Is(WordKind.From)) is >= 0 and var at ? terms[at].Start : line.Length;
        foreach (var term in clause.Terms)
        {
            term.IsUsed = term.Start < place;
        }

        return new Heard(clause, Shape.Thing, new Reading { Deed = Deed.Safe, Part = called.Count > 0 ? line[called[0].Start..called[^1].End] : null, Supply = SupplyKind.HighVoltage }) { SaysDeed = true };
    }

    private static bool IsDeed(Term term) => term.Is(WordKind.Deeds, WordKind.DeedsOf, WordKind.Verbs, WordKind.Covering);

    /// <summary>Whether it came off after all: “engine off, four bolts”, or a key behind the wheel that sat on it.</summary>
    /// <param name="before">What was told last; null for nothing.</param>
    /// <param name="next">What the line says next; null at its end.</param>
    public static bool CameOff(Heard still, Reading? before, Heard? next) => still.Shape == Shape.Key
        ? before is { Deed: Deed.Off or Deed.Undone or Deed.Aside or Deed.Loose }
        : still.Reading.Part is not null && next is { Shape: Shape.Thing, SaysHost: false, SaysDeed: false, Reading: { Part: null } fasteners } && fasteners.IsTurned();
}
