using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Reads a clause about a switch: “isolator off”, “power off at the isolator”. It was switched, and is on its wall still.</summary>
internal static class SwitchReader
{
    /// <returns>Null where the clause says nothing of the kind, or more than that: “isolator off the wall”.</returns>
    public static Heard? Read(Clause clause, string line, PhraseBook book)
    {
        List<Term> terms = [.. clause.Terms.Where(term => !term.Is(WordKind.Fillers, WordKind.Article))];
        var at = terms.FindIndex(term => book.Of(term.Lower(line), WordKind.Switched) is not null);
        if (at < 1 || !IsAtSwitch(terms[(at + 1)..]))
        {
            return null;
        }

        // “Strom am Schalter aus”: where it was switched stands before the word.
        var end = terms.FindIndex(0, at, term => term.Is(WordKind.From)) is >= 1 and var from && IsAtSwitch(terms[from..at]) ? from : at;
        if (Supply(terms[..end]) is not { } supply)
        {
            return null;
        }

        foreach (var term in terms[..end].Append(terms[at]).Concat(clause.Terms.Where(term => term.Is(WordKind.Fillers, WordKind.Article))))
        {
            term.IsUsed = true;
        }

        var name = terms[..end] is [{ Kind: WordKind.Supplies } only] && !IsMains(only, line, book) ? null : line[terms[0].Start..terms[end - 1].End];
        return new Heard(clause, Shape.Thing, new Reading { Deed = Deed.Safe, Part = name, Supply = supply }) { SaysDeed = true };

        bool IsAtSwitch(List<Term> words) => words.Count == 0 || words[0].Is(WordKind.From) && words.Count > 1 && Supply(words[1..]) is not null;

        // By the last words of its name: “lathe isolator”.
        SupplyKind? Supply(List<Term> words) => words is [{ Kind: WordKind.Supplies, Value: "battery" or "high_voltage" } one] ? Kind(one.Value)
            : words.TrueForAll(term => term.Is(WordKind.Word, WordKind.Parts, WordKind.Sides, WordKind.JointModifiers))
                && Enumerable.Range(0, words.Count).Select(from => book.Phrase(line[words[from].Start..words[^1].End].ToLowerInvariant(), WordKind.Switches)).FirstOrDefault(phrase => phrase is not null) is { } found ? Kind(found.Value)
            : null;

        static SupplyKind? Kind(string value) => Words<SupplyKind>.TryRead(value, out var kind) ? kind : null;
    }

    /// <summary>Whether a supply is told by a word for the mains, and goes by that: not every machine's current is called high voltage by the person who puts it back.</summary>
    public static bool IsMains(Term supply, string line, PhraseBook book) => supply.Value == "high_voltage" && Array.Exists(supply.Lower(line).Split(' '), word => book.Of(word, WordKind.FluidSorts) is { Value: "high_voltage" });

    /// <summary>“Isolator off, two screws”: then it came off after all.</summary>
    public static void CameOff(Reading reading, Told? last)
    {
        if (reading.IsTurned() && reading.Part is null && last is { Reading: { Deed: Deed.Safe, Part: { } name, Supply: not null } before } && LineReader.IsSwitch(name))
        {
            last.Reading = before with { Deed = Deed.Off, Supply = null };
        }
    }
}
