using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>From a map, a goal and what is done already to who of two people does what, and when.</summary>
public static class HandsPlanner
{
    /// <exception cref="OperationCanceledException">The planning was called off.</exception>
    public static Answer<HandsPlan> Make(OperationNet net, Goal goal, OperationSet done, PlanLimits limits, CancellationToken ct = default)
    {
        // Whatever one person cannot be given, two cannot.
        if (Planner.Make(net, goal, done, new PlanLimits(1), ct) is { HasPlan: false } refused)
        {
            return Answer.None<HandsPlan>(refused.Refusal);
        }

        var goals = OperationSet.Of(
            net.Operations.Count,
            goal.Off.Select(part => net.Find(OperationKind.Off, part)).Concat(goal.Undo.Select(joint => net.Find(OperationKind.Undo, joint))));
        var problem = MapHands.Of(net, [.. goals.Select(net.Nothing.With)], done);
        var schedule = HandsSearch.Solve(problem, limits.States, ct)!;
        return new TimeLine(net, problem, schedule).Build(goal, goals, done);
    }
}
