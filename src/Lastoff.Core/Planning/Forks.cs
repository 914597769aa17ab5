using Lastoff.Core.Ledger;

namespace Lastoff.Core.Planning;

/// <summary>A place on the way out where the map offers more than one way: "either the cowl off, or a long swivel and three times the time".</summary>
/// <param name="Step">The step of the plan, as it is done in it.</param>
/// <param name="Ways">In the order of the map, the one that the plan takes included.</param>
public sealed record Fork(PlanStep Step, IReadOnlyList<ForkWay> Ways);

/// <summary>One of the ways at a fork.</summary>
/// <param name="Way">By its place in the map, as in <see cref="PlanStep.Way"/>.</param>
/// <param name="Minutes">What a whole plan takes that goes this way, out as well as back; null when none does from here. The plan at hand may come back another way than it goes out.</param>
/// <param name="AtLeast">What every plan that goes this way takes; null when there is none.</param>
/// <param name="Instead">What that plan does otherwise than the plan at hand; null when there is none, and for the way taken.</param>
public sealed record ForkWay(int Way, double? Minutes, double? AtLeast, PlanDifference? Instead);

/// <summary>A plan, and what each other way that its map offers along it would make of it.</summary>
public sealed record ForkedPlan(Plan Plan, IReadOnlyList<Fork> Forks);

/// <summary>Asks of every fork of a plan's way out what each way would cost, if it were taken.</summary>
/// <remarks>
/// A way is forced: the others of its operation are closed, and the operation is made a goal beside the goals. The whole is planned anew, so all that
/// follows from the way is in its minutes: what need not come off any more, the tools, the places, the way back. That gives the bound. As a search that is
/// cut short may also wander off elsewhere, the way is tried once more with everything else the way the plan at hand has it, and the better of the two counts.
/// </remarks>
public sealed class Forks
{
    private readonly Standing _standing;
    private readonly Goal _goal;
    private readonly Plan _plan;
    private readonly PlanLimits _limits;
    private readonly CancellationToken _cancel;
    private readonly RoundTrip _problem;
    private readonly List<PlanStep> _moves;

    private Forks(Standing standing, Goal goal, Plan plan, PlanLimits limits, CancellationToken cancel)
    {
        (_standing, _goal, _plan, _limits, _cancel) = (standing, goal, plan, limits, cancel);
        _problem = Planner.Problem(standing.Net, goal, standing.Done, standing.Stuck);
        _moves = Moves(plan.Out);
    }

    /// <param name="goal">What the plan was made for.</param>
    /// <param name="plan">The plan at hand, made from this standing.</param>
    /// <param name="limits">Of each search; there are two for every way that is not taken.</param>
    /// <exception cref="OperationCanceledException">The planning was called off.</exception>
    public static IReadOnlyList<Fork> Of(Standing standing, Goal goal, Plan plan, PlanLimits limits, CancellationToken ct = default) =>
        new Forks(standing, goal, plan, limits, ct).All();

    private List<Fork> All() =>
    [
        .. from step in _moves
           let operation = _standing.Net.Operations[OperationOf(step)]
           where operation.Ways.Count > 1
           select new Fork(step, [.. operation.Ways.Select((_, way) => way == step.Way ? new ForkWay(way, _plan.MinutesP50, _plan.LowerBoundMinutes, null) : Try(operation.Index, way))]),
    ];

    private ForkWay Try(int operation, int way)
    {
        var forced = _problem.Closing(operation, at => at != way) with { Goals = [.. _problem.Goals, _standing.Net.Nothing.With(operation)] };
        if (Search(forced) is not { } free)
        {
            return new ForkWay(way, null, null, null);
        }

        var best = free.Cost > free.LowerBound && Search(AsPlanned(forced, operation)) is { } planned && planned.Cost < free.Cost ? planned : free;
        return new ForkWay(
            way, best.Cost / MapTrip.TicksPerMinute, free.LowerBound / MapTrip.TicksPerMinute,
            PlanDifference.Between(_moves, Moves(new PlanBuilder(_standing.Net, _goal, _standing.Done, _standing.Stuck, best).Build().Out)));
    }

    private Trip? Search(RoundTrip problem) => Planner.OutOfReach(_standing.Net, problem) is null ? TripSearch.Solve(problem, _limits.States, _cancel) : null;

    /// <summary>Only the ways of the plan at hand for what it does; what it does not do may be done as it likes.</summary>
    private RoundTrip AsPlanned(RoundTrip forced, int but) =>
        // The way home of a step may be another than its way out.
        _moves.Concat(Moves(_plan.Back)).GroupBy(OperationOf, step => step.Way).Where(move => move.Key != but && !_standing.Done.Contains(move.Key))
            .Aggregate(forced, (problem, move) => problem.Closing(move.Key, at => !move.Contains(at)));

    private int OperationOf(PlanStep step) => _standing.Net.Find(step.Kind.AsMove()!.Value.Operation(), step.Target);

    private static List<PlanStep> Moves(IEnumerable<PlanStep> steps) => [.. steps.Where(step => step.Kind.AsMove() is not null)];
}
