namespace Lastoff.Core.Recording;

/// <summary>Clauses that name a thing once more and mean the one before.</summary>
internal static class SameAgain
{
    /// <summary>“Snap ring off the worm wheel and the wheel off the shaft”: the wheel is the worm wheel.</summary>
    public static Reading Named(Heard heard, Told? last, string line)
    {
        List<Term> terms = [.. heard.Clause.Terms.SkipWhile(term => term.Is(WordKind.Deeds, WordKind.Verbs)).Take(2)];
        // “Four 10s out of the belt guard, guard off”.
        var isItsPart = last is { IsRemark: false } && last.Reading.IsTurned() && terms.Count > 0 && terms[0].Lower(line) == heard.Reading.Part?.ToLowerInvariant();
        return !heard.Clause.IsStart && heard.Reading is { Kind: null, Deed: Deed.Off or Deed.Aside, Part: { } part } && (isItsPart || terms is [{ Kind: WordKind.Fillers } the, _] && LineReader.IsDetermined(the.Lower(line)))
            && last?.Reading.Part is { } before && before.EndsWith($" {part}", StringComparison.OrdinalIgnoreCase)
                ? heard.Reading with { Part = before }
                : heard.Reading;
    }

    /// <summary>Adds what the clause says to the thing before, if it speaks of that.</summary>
    public static bool Joins(Told last, Heard heard)
    {
        var said = heard.Reading;
        switch (last.Reading)
        {
            // “13 mil heads”: the size of what was said before.
            case { Kind: not null, Across: null } before when heard.IsImplied && said is { Count: null, Across: { } across } && heard.Clause.Joined == Joined.Comma:
                last.Reading = Merging.Of(before with { Across = across }, said);
                foreach (var term in heard.Clause.Terms)
                {
                    term.IsUsed &= !term.Is(WordKind.Word, WordKind.Parts);
                }

                return true;
            // “Starter unbolted, two bolts”.
            case { Kind: { } kind, Count: null, Across: null, Name: null } before when last.IsOfDeed && !heard.SaysDeed && said is { Part: null, Name: null } && said.Kind == kind && heard.Clause.Joined == Joined.Comma:
                last.Reading = Merging.Of(before, said);
                return true;
            // “Air tank let off, gauge at zero”.
            case { Deed: Deed.Safe or Deed.Drained, Kind: null, Part: { } part } before when said is { Deed: Deed.Safe, Kind: null } && part.Equals(said.Part, StringComparison.OrdinalIgnoreCase) && !heard.Clause.IsStart:
                last.Reading = before with { Deed = Deed.Safe, Supply = before.Supply ?? said.Supply };
                ToldSoFar.Keep(heard.Clause);
                return true;
            // “Drained the sump, five litres of oil”.
            case { Deed: Deed.Drained, Fluid: null } before when said is { Deed: Deed.Drained, Fluid: not null, Part: null } && (before.Volume_L ?? said.Volume_L) == (said.Volume_L ?? before.Volume_L) && !heard.Clause.Has(WordKind.Deeds) && !heard.Clause.IsStart:
                last.Reading = Merging.Of(before with { Fluid = said.Fluid }, said);
                return true;
            default:
                return false;
        }
    }
}
