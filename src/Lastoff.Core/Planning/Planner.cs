using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>From a map, a goal and what is done already to the cheapest way out and back.</summary>
public static class Planner
{
    /// <summary>With no more operations out than this, a search takes no longer than a first trip, and proves what it finds.</summary>
    private const int QuicklySearched = 24;

    /// <param name="done">What is undone already, whoever did it and in whatever order.</param>
    /// <exception cref="OperationCanceledException">The planning was called off.</exception>
    public static PlanResult Make(OperationNet net, Goal goal, OperationSet done, PlanLimits limits, CancellationToken ct = default) =>
        Make(net, goal, done, [], limits, ct);

    /// <summary>Plans on from where a job stands, with what was found on the way.</summary>
    /// <exception cref="OperationCanceledException">The planning was called off.</exception>
    public static PlanResult Make(Standing standing, Goal goal, PlanLimits limits, CancellationToken ct = default) =>
        // All is home: what is left to prove or to renew is told by the standing alone.
        standing.Opened is not null && goal.Off.Count + goal.Undo.Count + standing.Done.Count == 0
            ? PlanResult.Of(Plan.Through)
            : Make(standing.Net, goal, standing.Done, standing.Stuck, limits, ct);

    /// <summary>Plans on after a surprise: the plan at hand is kept where it still leads on and none better is found.</summary>
    /// <exception cref="OperationCanceledException">The planning was called off.</exception>
    public static PlanResult Remake(Standing standing, Goal goal, Plan had, PlanLimits limits, CancellationToken ct = default)
    {
        var (net, done, stuck) = (standing.Net, standing.Done, standing.Stuck);
        var (found, refusal) = Solve(net, goal, done, stuck, limits, ct);
        if (found is null)
        {
            return PlanResult.Refused(refusal!);
        }

        var trip = PlanAtHand.OrBetter(net, Problem(net, goal, done, stuck), had, found);
        var plan = Build(trip);
        // Moves against the map leave the order of a plan legal and yet its next step out of turn.
        return PlanResult.Of(trip == found || NextStep.Fits(standing, plan) ? plan : Build(found));

        Plan Build(Trip trip) => new PlanBuilder(net, goal, done, stuck, trip).Build();
    }

    private static PlanResult Make(OperationNet net, Goal goal, OperationSet done, IReadOnlyList<JointStuck> stuck, PlanLimits limits, CancellationToken ct)
    {
        var (trip, refusal) = Solve(net, goal, done, stuck, limits, ct);
        return trip is null ? PlanResult.Refused(refusal!) : PlanResult.Of(new PlanBuilder(net, goal, done, stuck, trip).Build());
    }

    /// <summary>The trip itself, or the one sentence that says why there is none.</summary>
    internal static (Trip? Trip, string? Refusal) Solve(
        OperationNet net, Goal goal, OperationSet done, IReadOnlyList<JointStuck> stuck, PlanLimits limits, CancellationToken ct)
    {
        if (Refusal(net, goal, done) is { } refusal)
        {
            return (null, refusal);
        }

        var problem = Problem(net, goal, done, stuck);
        if (OutOfReach(net, problem) is { } far)
        {
            return (null, WhyOutOfReach(net, goal, done, stuck, net.Operations[far]));
        }

        var trip = (limits.IsAtOnce && FirstTrip.Of(problem, ct) is { } first && first.Out.Count > QuicklySearched ? first : null)
            ?? TripSearch.Solve(problem, limits.States, limits.Enough, ct);
        trip = trip is null ? null : HomeOrder.Of(net, problem, trip);
        return (trip, trip is null ? "No order of this map's operations reaches all the goals; run `lastoff check` on the map." : null);
    }

    internal static RoundTrip Problem(OperationNet net, Goal goal, OperationSet done, IReadOnlyList<JointStuck> stuck) =>
        MapTrip.Of(net, [.. Goals(net, goal).Select(net.Nothing.With)], done, stuck);

    internal static OperationSet Goals(OperationNet net, Goal goal) => OperationSet.Of(
        net.Operations.Count,
        goal.Off.Select(part => net.Find(OperationKind.Off, part)).Concat(goal.Undo.Select(joint => net.Find(OperationKind.Undo, joint))));

    /// <summary>A goal that no way leads to, or null when all can be met.</summary>
    internal static int? OutOfReach(OperationNet net, RoundTrip problem)
    {
        var reachable = Reachable(problem);
        return net.Operations.Select(operation => (int?)operation.Index)
            .FirstOrDefault(x => !reachable.Contains(x!.Value) && problem.Goals.Any(goal => goal.Contains(x.Value)));
    }

    /// <summary>Names the stuck joints that stand in the way, or else the map.</summary>
    private static string WhyOutOfReach(OperationNet net, Goal goal, OperationSet done, IReadOnlyList<JointStuck> stuck, Operation far)
    {
        bool Opens(IReadOnlyList<JointStuck> without) => OutOfReach(net, Problem(net, goal, done, without)) is not { } x || x != far.Index;

        List<string> closed = [.. stuck.Where(found => found.IsClosed).Select(found => found.Joint).Distinct()];
        if (!Opens([]))
        {
            return $"By this map “{far.Name}” ({far.Target}) can never {(far.Kind == OperationKind.Off ? "come off" : "be undone")}: something in its way has no way out; run `lastoff check` on the map.";
        }

        List<string> alone = [.. closed.Where(joint => Opens([.. stuck.Where(found => found.Joint != joint)]))];
        var inTheWay = (alone.Count > 0 ? alone.Take(1) : closed).Select(joint => $"“{net.Joints[joint].Name}”").ToList();
        return $"{string.Join(" and ", inTheWay)} cannot be undone, as was found, and no other way leads to “{far.Name}” ({far.Target}): "
            + "record how many minutes more it takes after all, or take another part as the goal.";
    }

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

    private static OperationSet Reachable(RoundTrip problem)
    {
        var done = problem.Start;
        for (var before = -1; before != done.Count;)
        {
            before = done.Count;
            for (var operation = 0; operation < problem.Ways.Count; operation++)
            {
                if (!done.Contains(operation) && problem.Ways[operation].Any(way => TripOrder.IsOpen(way, done)))
                {
                    done = done.With(operation);
                }
            }
        }

        return done;
    }
}
