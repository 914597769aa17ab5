using Lastoff.Core.Ledger;

namespace Lastoff.Core.Planning;

/// <summary>When a plan that was searched for longer takes the place of the one at hand.</summary>
public static class Takeover
{
    /// <summary>Whether the other plan leads on from here in less time, or in the same time with more known about it.</summary>
    public static bool IsBetter(Standing standing, Plan had, Plan other)
    {
        var (before, after) = (Ahead(standing, had), Ahead(standing, other));
        return NextStep.Fits(standing, other)
            && (after < before || (after == before && other.LowerBoundMinutes > had.LowerBoundMinutes));
    }

    /// <summary>Whether the other plan leaves the step that someone is at as it is: the same thing, from the same place, with the same tool.</summary>
    /// <param name="inHand">The step on the screen; null when there is none yet.</param>
    public static bool LeavesInHand(Standing standing, PlanStep? inHand, Plan other) =>
        inHand is null || (NextStep.Of(standing, other) is { } next && IsSame(next, inHand));

    public static bool IsSame(PlanStep one, PlanStep other) =>
        (one.Kind, one.Target, one.Way, one.Tool, one.At) == (other.Kind, other.Target, other.Way, other.Tool, other.At);

    /// <summary>To the thousandth of a minute that plans are counted in, since sums in another order differ by less.</summary>
    private static double Ahead(Standing standing, Plan plan) => Math.Round(NextStep.MinutesAhead(standing, plan), 3);
}
