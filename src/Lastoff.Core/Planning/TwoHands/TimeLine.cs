using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>Turns a schedule into the steps two people read, each with its time.</summary>
/// <remarks>
/// What goes with an operation (its cover, its renewals, the last look before it) is done by who does the operation, within its time. What
/// is written is the same as for one person who does the steps as they begin.
/// </remarks>
internal sealed class TimeLine(OperationNet net, HandsProblem problem, HandsSchedule schedule)
{
    private const string LiftCaution = "The other stands clear and works at nothing while the lift moves.";

    public HandsPlan Build(Goal goal, OperationSet done, IReadOnlyList<JointStuck> stuck)
    {
        var trip = new Trip(
            [.. schedule.Out.Select(AsOfOne)], [.. schedule.Back.Where(step => !IsProof(step)).Select(AsOfOne)], schedule.PersonTicks, 0, schedule.Unproven);
        var whole = new PlanBuilder(net, goal, done, stuck, trip).Build();
        return new HandsPlan
        {
            Out = [.. Timed(whole.Out, schedule.Out, 0, outward: true).OrderBy(step => step.StartMinutes)],
            Back = [.. Timed(whole.Back, schedule.Back, HandsSchedule.Length(schedule.Out), outward: false).OrderBy(step => step.StartMinutes)],
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
    private IEnumerable<TimedStep> Timed(IReadOnlyList<PlanStep> steps, IReadOnlyList<HandsStep> scheduled, long from, bool outward)
    {
        var groups = new Queue<IReadOnlyList<PlanStep>>(Groups(steps.Where(step => step.Kind != StepKind.Prove)));
        var waits = new HandsWaits(net, problem.Trip, outward);
        var liftIsUp = false;
        foreach (var own in scheduled)
        {
            var group = IsProof(own) ? [steps.First(step => step.Kind == StepKind.Prove && step.Target == ProofOf(own).Id)] : groups.Dequeue();
            var isUnder = IsProof(own) ? liftIsUp : group.First(IsOperation).At == Position.Below;
            var movesLift = isUnder != liftIsUp;
            liftIsUp = isUnder;
            var (start, end) = (own.Start, own.Start + own.SetUp);
            var (wait, waitFor) = waits.Count(own);
            foreach (var (i, step) in group.Index())
            {
                end = i == group.Count - 1 ? own.End : end + MapTrip.Ticks(step.Minutes + step.RiskMinutes);
                var said = i > 0 ? step : step with
                {
                    Caution = movesLift ? $"{LiftCaution} {step.Caution}".TrimEnd() : step.Caution,
                    WaitMinutes = Minutes(wait),
                    WaitFor = waitFor,
                };
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
            if (step.Kind != StepKind.Cover && group.Exists(IsOperation))
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

    private Proof ProofOf(HandsStep step) => net.Map.Proofs[step.Operation - problem.Operations];

    private bool IsProof(HandsStep step) => step.Operation >= problem.Operations;

    private static bool IsOperation(PlanStep step) => step.Kind.AsMove() is not null;

    private static TripStep AsOfOne(HandsStep step) => new(step.Operation, step.Way, step.SetUp, step.Work);

    private static double Minutes(long ticks) => ticks / MapTrip.TicksPerMinute;
}
