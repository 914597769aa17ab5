using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.App.Jobs;

/// <summary>A layer of the machine as the depth section shows it.</summary>
/// <param name="Parts">What comes away in it.</param>
/// <param name="Open">How many of its operations are done at this moment.</param>
/// <param name="IsHere">The work is in this layer.</param>
/// <param name="Gate">On the way back, what must be true before it closes.</param>
public sealed record DepthLayer(IReadOnlyList<string> Parts, int Open, int All, bool IsGoal, bool IsHere, IReadOnlyList<GateCondition> Gate)
{
    public double ShareOpen => All == 0 ? 0 : (double)Open / All;

    /// <param name="withGates">Only where they are shown: to find what hangs on what takes a while on a large map.</param>
    public static IReadOnlyList<DepthLayer> Of(JobSession session, bool withGates = false)
    {
        var standing = session.Standing;
        var here = Here(session);
        // While things are still recorded there is no plan, and nothing closes yet.
        var isGoingHome = withGates && session.Plan is not null && standing.HandedOver is null && !GoalLeft.IsAhead(standing);
        return [.. session.Layers.Select((layer, at) =>
        {
            var parts = layer.Select(o => session.Net.Operations[o]).Where(o => o.Kind is OperationKind.Off or OperationKind.Aside).DistinctBy(o => o.Target).ToList();
            var isGoal = parts.Any(p => standing.GoalParts.Contains(p.Target))
                || layer.Any(o => session.Net.Operations[o] is { Kind: OperationKind.Undo } joint && standing.GoalJoints.Contains(joint.Target));
            return new DepthLayer([.. parts.Select(p => p.Name)], layer.Count(standing.Done.Contains), layer.Count, isGoal, at == here, isGoingHome ? ClosingGate.Of(standing, layer) : []);
        })];
    }

    /// <summary>The layer of the next move, or else the deepest that is open; -1 when all is closed.</summary>
    private static int Here(JobSession session)
    {
        var layers = session.Layers.ToList();
        if (session.Next is { } next && next.Kind.AsMove() is { } move && session.Net.TryFind(Moves.Operation(move), next.Target, out var operation))
        {
            return layers.FindIndex(layer => layer.Contains(operation));
        }

        return layers.FindLastIndex(layer => layer.Any(session.Standing.Done.Contains));
    }
}
