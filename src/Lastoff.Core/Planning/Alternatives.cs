using Lastoff.Core.Ledger;

namespace Lastoff.Core.Planning;

/// <summary>What it would cost to go another way round one step of a plan.</summary>
/// <param name="Step">The step of the way out.</param>
/// <param name="Instead">What the cheapest plan found without it, or without this way of it, does otherwise; null when this map has none.</param>
/// <param name="MinutesMore">What that plan takes on top of the plan at hand; null when there is none.</param>
/// <param name="AtLeastMore">What every such plan takes on top of it.</param>
public sealed record Alternative(PlanStep Step, PlanDifference? Instead, double? MinutesMore, double? AtLeastMore)
{
    /// <summary>The sentence that stands at the step.</summary>
    public string Sentence => Instead is null ? "No way round it on this map." : $"Otherwise: {Otherwise(Instead)}: {Minutes}.";

    private string Minutes
    {
        get
        {
            var (more, least) = (MinutesMore!.Value, AtLeastMore!.Value);
            return more - least < 0.05
                ? more < -0.05 ? $"{MinuteWords.Of(-more)} less, so better than this plan" : more < 0.05 ? "no more time" : $"{MinuteWords.Of(more)} more"
                : (more < 0.05 ? "about the same time" : $"{MinuteWords.Of(more)} more as far as searched") + (least < 0.05 ? "" : $", at least {MinuteWords.Of(least)} more");
        }
    }

    private string Otherwise(PlanDifference instead)
    {
        var gone = instead.Added.Where(step => step.Kind is StepKind.TakeOff or StepKind.LayAside).Select(step => step.Target).ToHashSet();
        var left = instead.Dropped.Where(step => step.Kind is StepKind.TakeOff or StepKind.LayAside && !gone.Contains(step.Target)).ToList();
        string[] all =
        [
            left.Count > 0 ? $"leave {PlanDifference.Few(left, step => $"“{step.Name}”")} in place"
                : instead.Dropped.Any(step => !gone.Contains(step.Target)) ? $"leave {PlanDifference.Few(instead.Dropped.Where(step => !gone.Contains(step.Target)), step => $"“{step.Name}”")} alone"
                : "",
            PlanDifference.Few(instead.OtherWay.OrderByDescending(step => step.Target == Step.Target), PlanDifference.Way),
            PlanDifference.Few(instead.Added, PlanDifference.Move),
        ];
        var said = all.Where(part => part.Length > 0).ToList();
        return said.Count > 0 ? string.Join("; ", said) : "the same by another order";
    }
}

/// <summary>Asks of every step of a plan's way out what it would cost to do without it as it is written.</summary>
/// <remarks>
/// A step that has other ways is solved for once more with its way closed, any other that can be done without with the whole operation closed. So an alternative
/// is never a guess: it is a plan of its own, and the bound of that search says what no other can beat.
/// </remarks>
public static class Alternatives
{
    /// <param name="goal">What the plan was made for.</param>
    /// <param name="plan">The plan at hand, made from this standing.</param>
    /// <exception cref="OperationCanceledException">The planning was called off.</exception>
    public static IReadOnlyList<Alternative> Of(Standing standing, Goal goal, Plan plan, PlanLimits limits, CancellationToken ct = default)
    {
        var net = standing.Net;
        var problem = Planner.Problem(net, goal, standing.Done, standing.Stuck);
        var moves = plan.Out.Where(step => step.Kind.AsMove() is not null).ToList();
        List<(PlanStep Step, int Operation, int? Way, Trip? Trip)> tried = [];
        foreach (var step in moves)
        {
            var operation = net.Operations[net.Find(step.Kind.AsMove()!.Value.Operation(), step.Target)];
            int? way = operation.Ways.Count > 1 ? step.Way : null;
            var closed = problem.Closing(operation.Index, at => way is null || at == way);
            tried.Add((step, operation.Index, way, Planner.OutOfReach(net, closed) is null ? TripSearch.Solve(closed, limits.States, ct) : null));
        }

        // What was found round another step may go round this one too, and for less where a search was cut short.
        return [.. tried.Select(own => own.Trip is null
            ? new Alternative(own.Step, null, null, null)
            : Of(own.Step, tried.Select(other => other.Trip).OfType<Trip>().Where(trip => !Takes(trip, own.Operation, own.Way)).MinBy(trip => trip.Cost)!, own.Trip.LowerBound))];

        Alternative Of(PlanStep step, Trip trip, long bound) => new(
            step,
            PlanDifference.Between(moves, new PlanBuilder(net, goal, standing.Done, standing.Stuck, trip).Build().Out.Where(s => s.Kind.AsMove() is not null)),
            trip.Cost / MapTrip.TicksPerMinute - plan.MinutesP50,
            bound / MapTrip.TicksPerMinute - plan.MinutesP50);
    }

    private static bool Takes(Trip trip, int operation, int? way) =>
        trip.Out.Concat(trip.Back).Any(step => step.Operation == operation && (way is null || step.Way == way));
}
