using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>Turns a schedule into the steps two people read, each with its time.</summary>
/// <remarks>
/// What goes with an operation (its cover, its renewals, the last look before it) is done by who does the operation, within its time. What
/// is written and in which order is the same as for one person who does the steps as they begin.
/// </remarks>
internal sealed class TimeLine(OperationNet net, HandsProblem problem, HandsSchedule schedule)
{
    private const string LiftCaution = "The other stands clear and works at nothing while the lift moves.";

    public HandsPlan Build(Goal goal, OperationSet goals, OperationSet done)
    {
        List<HandsStep> work = [.. schedule.Back.Where(step => step.Operation < problem.Operations)];
        var trip = new Trip([.. schedule.Out.Select(AsOfOne)], [.. work.Select(AsOfOne)], schedule.PersonTicks, 0, schedule.Unproven);
        var whole = new PlanBuilder(net, goal, goals, done, trip).Build();
        var outTicks = HandsSchedule.Length(schedule.Out);
        return new HandsPlan
        {
            Out = [.. Timed(whole.Out, schedule.Out, 0)],
            Back = [.. Timed([.. whole.Back.Where(step => step.Kind != StepKind.Prove)], work, outTicks)
                .Concat(whole.Back.Where(step => step.Kind == StepKind.Prove).Select(step => Reading(step, outTicks)))
                .OrderBy(step => step.StartMinutes)],
            MakespanMinutes = Minutes(schedule.Makespan),
            LowerBoundMinutes = Minutes(schedule.LowerBound),
            ProvenOptimal = schedule.Unproven is null,
            Unproven = schedule.Unproven,
            PersonMinutes = Minutes(schedule.PersonTicks),
            OnePersonMinutes = Minutes(schedule.OnePerson),
            Whole = whole,
        };
    }

    /// <summary>Shares every operation's time out among its own step and those that go with it; its set-up comes first.</summary>
    private static IEnumerable<TimedStep> Timed(IEnumerable<PlanStep> steps, IEnumerable<HandsStep> operations, long from)
    {
        var liftIsUp = false;
        foreach (var (group, own) in Groups(steps).Zip(operations))
        {
            var isUnder = group.First(step => step.Kind.AsMove() is not null).At == Position.Below;
            var caution = isUnder != liftIsUp ? LiftCaution : null;
            liftIsUp = isUnder;
            var (start, end) = (own.Start, own.Start + own.SetUp);
            foreach (var (i, step) in group.Index())
            {
                end = i == group.Count - 1 ? own.End : end + MapTrip.Ticks(step.Minutes);
                var said = step with { Caution = i > 0 || caution is null ? step.Caution : $"{caution} {step.Caution}".TrimEnd() };
                yield return new TimedStep(said, own.Who + 1, Minutes(from + start), Minutes(from + end));
                start = end;
            }
        }
    }

    /// <summary>An operation's own step with what goes before it and, for covers, after it.</summary>
    private static IEnumerable<IReadOnlyList<PlanStep>> Groups(IEnumerable<PlanStep> steps)
    {
        var group = new List<PlanStep>();
        foreach (var step in steps)
        {
            if (step.Kind != StepKind.Cover && group.Exists(earlier => earlier.Kind.AsMove() is not null))
            {
                yield return group;
                group = [];
            }

            group.Add(step);
        }

        if (group.Count > 0)
        {
            yield return group;
        }
    }

    private TimedStep Reading(PlanStep step, long from)
    {
        var proof = net.Map.Proofs.Index().First(proof => proof.Item.Id == step.Target).Index;
        var own = schedule.Back.First(taken => taken.Operation == problem.Operations + proof);
        return new TimedStep(step, own.Who + 1, Minutes(from + own.Start), Minutes(from + own.End));
    }

    private static TripStep AsOfOne(HandsStep step) => new(step.Operation, step.Way, step.SetUp, step.Work);

    private static double Minutes(long ticks) => ticks / MapTrip.TicksPerMinute;
}
