using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Reads a clause about a tap or what comes through one: “fuel tap shut”, “water off at the stopcock”, “air shut off”. It is opened again at the end.</summary>
internal static class TapReader
{
    private const string Tap = "tap";
    private const string Pressed = "pressed";

    // “Turned the water off”: how it was shut, and no part of its name.
    private const string Turned = "safe";

    /// <returns>Null where the clause says nothing of the kind: “tap off” came off, “ran the petrol off” drained it.</returns>
    public static Heard? Read(Clause clause, string line, PhraseBook book)
    {
        List<Term> terms = [.. clause.Terms.Where(term => !term.Is(WordKind.Fillers, WordKind.Article))];
        for (var at = 1; at < terms.Count; at++)
        {
            // “Shut off” before “shut”.
            for (var end = Math.Min(at + 2, terms.Count); end > at; end--)
            {
                if (book.Phrase(line[terms[at].Start..terms[end - 1].End].ToLowerInvariant(), WordKind.Shut) is { } shut)
                {
                    return end < terms.Count && !terms[end].Is(WordKind.From) ? null : Named(clause, terms, at, end, shut, line, book);
                }
            }
        }

        return null;
    }

    private static Heard? Named(Clause clause, List<Term> terms, int at, int end, Phrase shut, string line, PhraseBook book)
    {
        var from = terms[0] is { Kind: WordKind.Verbs, Value: Turned } ? 1 : 0;
        if (from == at || terms[from..at].Exists(term => term.Is(WordKind.Verbs, WordKind.Deeds)))
        {
            return null;
        }

        var name = line[terms[from].Start..terms[at - 1].End];
        // By the last word of its name; what flows is shut by “off”, too.
        if (terms[..at].Exists(term => term.Is(WordKind.Number, WordKind.Across, WordKind.Thread)) || SortOf(name, book) is not { } tap || (tap == Tap && shut.Value != Tap))
        {
            return null;
        }

        foreach (var term in terms[..end].Concat(clause.Terms.Where(term => term.Is(WordKind.Fillers, WordKind.Article))))
        {
            term.IsUsed = true;
        }

        // What is still under pressure behind the tap is warned of by its name.
        SupplyKind? supply = LineReader.SortOf(name) == SupplyKind.FuelPressure ? SupplyKind.FuelPressure : LineReader.IsPressed(name) ? null : SupplyKind.Heat;
        return new Heard(clause, Shape.Thing, new Reading { Deed = Deed.Safe, Part = name, Supply = supply }) { SaysDeed = true };
    }

    /// <summary>Whether it is a tap, or what comes through one.</summary>
    public static bool IsTap(string name, PhraseBook book) => SortOf(name, book) is not null;

    /// <summary>Whether it is air or steam that is shut in.</summary>
    public static bool IsPressed(string name, PhraseBook book) => SortOf(name, book) == Pressed;

    private static string? SortOf(string name, PhraseBook book) => book.Of(name.Split(' ')[^1].ToLowerInvariant(), WordKind.Taps)?.Value;
}
