using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>From a map, a goal and what is done already to the cheapest way out and back.</summary>
public static class Planner
{
    /// <param name="done">What is undone already, whoever did it and in whatever order.</param>
    /// <exception cref="OperationCanceledException">The planning was called off.</exception>
    public static PlanResult Make(OperationNet net, Goal goal, OperationSet done, PlanLimits limits, CancellationToken ct = default)
    {
        var (trip, refusal) = Solve(net, goal, done, limits, ct);
        return trip is null ? PlanResult.Refused(refusal!) : PlanResult.Of(new PlanBuilder(net, goal, done, trip).Build());
    }

    /// <summary>The trip itself, or the one sentence that says why there is none.</summary>
    internal static (Trip? Trip, string? Refusal) Solve(OperationNet net, Goal goal, OperationSet done, PlanLimits limits, CancellationToken ct)
    {
        if (Refusal(net, goal, done) is { } refusal)
        {
            return (null, refusal);
        }

        var goals = Goals(net, goal);
        var reachable = Reachable(net, done);
        if (goals.Where(operation => !reachable.Contains(operation)).Select(operation => net.Operations[operation]).FirstOrDefault() is { } stuck)
        {
            return (null,
                $"By this map “{stuck.Name}” ({stuck.Target}) can never {(stuck.Kind == OperationKind.Off ? "come off" : "be undone")}: something in its way has no way out; run `lastoff check` on the map.");
        }

        var trip = TripSearch.Solve(MapTrip.Of(net, [.. goals.Select(net.Nothing.With)], done), limits.States, ct);
        return (trip, trip is null ? "No order of this map's operations reaches all the goals; run `lastoff check` on the map." : null);
    }

    internal static OperationSet Goals(OperationNet net, Goal goal) => OperationSet.Of(
        net.Operations.Count,
        goal.Off.Select(part => net.Find(OperationKind.Off, part)).Concat(goal.Undo.Select(joint => net.Find(OperationKind.Undo, joint))));

    /// <summary>What is wrong with a goal, in one sentence; null when nothing is.</summary>
    private static string? Refusal(OperationNet net, Goal goal, OperationSet done)
    {
        // Without a goal there is still the way home of what is undone.
        if (goal.Off.Count + goal.Undo.Count + done.Count == 0)
        {
            return "Name a goal: the part that is to come off, or the joint that is to be undone.";
        }

        if (goal.Off.FirstOrDefault(part => !net.Parts.ContainsKey(part)) is { } noPart)
        {
            return $"The map has no part “{noPart}”{Nearest(noPart, net.Parts.Keys)}";
        }

        return goal.Undo.FirstOrDefault(joint => !net.Joints.ContainsKey(joint)) is { } noJoint
            ? $"The map has no joint “{noJoint}”{Nearest(noJoint, net.Joints.Keys)}"
            : null;
    }

    /// <summary>Names that share the longest run of letters from the start, so that a slip of the pen is seen at once.</summary>
    private static string Nearest(string name, IEnumerable<string> known)
    {
        var nearest = known.Order(StringComparer.Ordinal)
            .MaxBy(other => other.Zip(name).TakeWhile(pair => pair.First == pair.Second).Count());
        return nearest is null ? "; it has none at all." : $"; the nearest name is “{nearest}”.";
    }

    private static OperationSet Reachable(OperationNet net, OperationSet done)
    {
        for (var before = -1; before != done.Count;)
        {
            before = done.Count;
            foreach (var operation in net.Operations)
            {
                if (!done.Contains(operation.Index) && net.OpenWay(done, operation.Index) is not null)
                {
                    done = done.With(operation.Index);
                }
            }
        }

        return done;
    }
}
