using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>From a map, a goal and what is done already to who of two people does what, and when.</summary>
public static class HandsPlanner
{
    /// <exception cref="OperationCanceledException">The planning was called off.</exception>
    public static Answer<HandsPlan> Make(OperationNet net, Goal goal, OperationSet done, PlanLimits limits, CancellationToken ct = default) =>
        Make(net, goal, done, [], limits, ct);

    /// <summary>Plans on from where a job stands, with what was found on the way.</summary>
    /// <exception cref="OperationCanceledException">The planning was called off.</exception>
    public static Answer<HandsPlan> Make(Standing standing, Goal goal, PlanLimits limits, CancellationToken ct = default) =>
        Make(standing.Net, goal, standing.Done, standing.Stuck, limits, ct);

    private static Answer<HandsPlan> Make(OperationNet net, Goal goal, OperationSet done, IReadOnlyList<JointStuck> stuck, PlanLimits limits, CancellationToken ct)
    {
        // Whatever one person cannot be given, two cannot.
        if (Planner.Solve(net, goal, done, stuck, new PlanLimits(1), ct) is { Refusal: { } refusal })
        {
            return Answer.None<HandsPlan>(refusal);
        }

        var problem = MapHands.Of(net, Planner.Problem(net, goal, done, stuck));
        var schedule = HandsSearch.Solve(problem, limits.States, ct)!;
        return new TimeLine(net, problem, schedule).Build(goal, done, stuck);
    }
}
