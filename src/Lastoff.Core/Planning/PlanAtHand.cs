using System.Globalization;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>The plan at hand, gone on with from where the job stands now.</summary>
internal static class PlanAtHand
{
    /// <summary>
    /// That plan instead of the one just found, when it still leads to every goal and takes no longer: a surprise that changes nothing changes no plan,
    /// and a short search never makes one worse.
    /// </summary>
    public static Trip OrBetter(OperationNet net, RoundTrip problem, Plan had, Trip found)
    {
        if (GoOn(net, problem, had) is not var (stepsOut, stepsBack) || TripOrder.Cost(stepsOut) + TripOrder.Cost(stepsBack) is var cost && cost > found.Cost)
        {
            return found;
        }

        var bound = Math.Min(found.LowerBound, cost);
        return new Trip(stepsOut, stepsBack, cost, bound, bound == cost ? null : string.Create(CultureInfo.InvariantCulture,
            $"This is the plan at hand; one up to {100.0 * (cost - bound) / cost:0.0} % shorter may exist."));
    }

    private static (IReadOnlyList<TripStep> Out, IReadOnlyList<TripStep> Back)? GoOn(OperationNet net, RoundTrip problem, Plan had)
    {
        List<OneWayStep> ahead = [.. Moves(net, had.Out).Where(step => !problem.Start.Contains(step.Operation))];
        var undone = problem.Start.Union(OperationSet.Of(net.Operations.Count, ahead.Select(step => step.Operation)));
        List<OneWayStep> home = [.. Moves(net, had.Back).Where(step => undone.Contains(step.Operation)).Reverse()];
        if (home.Count != undone.Count || !problem.Goals.All(goal => goal.Overlaps(undone)))
        {
            return null;
        }

        var (outward, back) = TripOrder.Trim(problem, ahead, home, net.Nothing);
        return TripOrder.Out(problem, outward) is { } stepsOut && TripOrder.Back(problem, back, net.Nothing) is { } stepsBack ? (stepsOut, stepsBack) : null;
    }

    private static IEnumerable<OneWayStep> Moves(OperationNet net, IEnumerable<PlanStep> steps) =>
        from step in steps
        let move = step.Kind.AsMove()
        where move is not null
        select new OneWayStep(net.Find(move.Value.Operation(), step.Target), step.Way);
}
