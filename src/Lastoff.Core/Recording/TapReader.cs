using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Reads a clause about a tap or what comes through one: “fuel tap shut”, “water off at the stopcock”. It is opened again at the end.</summary>
internal static class TapReader
{
    private const string Flow = "flow";

    /// <returns>Null where the clause says nothing of the kind: “tap off” came off.</returns>
    public static Heard? Read(Clause clause, string line, PhraseBook book)
    {
        List<Term> terms = [.. clause.Terms.Where(term => !term.Is(WordKind.Fillers, WordKind.Article))];
        var at = terms.FindIndex(term => book.Of(term.Lower(line), WordKind.Shut) is not null);
        if (at < 1 || at + 1 < terms.Count && !terms[at + 1].Is(WordKind.From))
        {
            return null;
        }

        var name = line[terms[0].Start..terms[at - 1].End];
        // By the last word of its name; what flows is shut by “off”, too.
        if (terms[..at].Exists(term => term.Is(WordKind.Number, WordKind.Across, WordKind.Thread)) || name.Split(' ')[^1].ToLowerInvariant() is var last && book.Of(last, WordKind.Taps) is not { } tap
            || book.Of(terms[at].Lower(line), WordKind.Shut)!.Value == Flow && tap.Value != Flow)
        {
            return null;
        }

        foreach (var term in terms[..(at + 1)].Concat(clause.Terms.Where(term => term.Is(WordKind.Fillers, WordKind.Article))))
        {
            term.IsUsed = true;
        }

        return new Heard(clause, Shape.Thing, new Reading { Deed = Deed.Safe, Part = name, Supply = LineReader.SortOf(name) == SupplyKind.FuelPressure ? SupplyKind.FuelPressure : SupplyKind.Heat }) { SaysDeed = true };
    }
}
