using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>Turns a solved trip into the steps a mechanic reads.</summary>
/// <param name="stuck">What was found at joints that are still made, as the trip was solved with it.</param>
public sealed class PlanBuilder(OperationNet net, Goal goal, OperationSet done, IReadOnlyList<JointStuck> stuck, Trip trip)
{
    private readonly List<PlanStep> _steps = [];
    private readonly List<LastLook> _lastLooks = [];
    private readonly HashSet<string> _cleaned = [];
    private readonly List<Renewal> _renewals = [];
    private readonly Reasons _reasons = new(net, Planner.Goals(net, goal), done, trip);
    private Running _running = new(net, outward: true);
    private Position _at = Position.Front;

    public Plan Build()
    {
        var undone = done;
        foreach (var step in trip.Out)
        {
            WriteOut(step, undone);
            undone = undone.With(step.Operation);
        }

        List<PlanStep> outSteps = [.. _steps];
        _steps.Clear();
        _at = Position.Front;
        _running = new Running(net, outward: false);
        WriteBack(undone);

        var used = trip.Out.Concat(trip.Back).Select(step => net.Operations[step.Operation].Ways[step.Way]).ToList();
        var typical = trip.Cost / MapTrip.TicksPerMinute;
        return new Plan
        {
            Out = outSteps,
            Back = [.. _steps],
            MinutesP50 = typical,
            MinutesP90 = Math.Max(typical, Spread.Of(net, [.. outSteps, .. _steps]).P90),
            LowerBoundMinutes = trip.LowerBound / MapTrip.TicksPerMinute,
            ProvenOptimal = trip.Unproven is null,
            Unproven = trip.Unproven,
            Stuck = stuck,
            Renewals = [.. _renewals],
            LastLooks = [.. _lastLooks],
            Tools = [.. used.Select(way => way.Tool).Distinct()],
            Positions = [.. used.Select(way => way.At).Distinct()],
        };
    }

    private void WriteOut(TripStep step, OperationSet undone)
    {
        var operation = net.Operations[step.Operation];
        WriteMain(step, operation, operation.OutMinutes, OutKind(operation.Kind), _reasons.Out(step.Operation));
        foreach (var opening in MapTrip.Openings(net, operation, undone))
        {
            Write(StepKind.Cover, operation, opening.Id, $"{opening.Name}: {opening.Cover}", operation.Ways[step.Way].At, opening.CoverMinutes,
                $"{operation.Name} leaves it open; nothing may fall in");
        }
    }

    private void WriteBack(OperationSet undone)
    {
        var ofThisJob = undone;
        var proofs = new ProofOrder(net, undone);
        if (trip.Back is [var first, ..])
        {
            WriteRenewals(net.RenewalsFor.GetValueOrDefault(Renewal.Alone, []), net.Operations[first.Operation], Position.Front, "it was said to be needed, and not what for");
        }

        foreach (var step in trip.Back)
        {
            var operation = net.Operations[step.Operation];
            var at = operation.Ways[step.Way].At;
            // The faces are clean and what is new lies ready before the cover comes out: an opening is bare for as short as can be.
            foreach (var joint in Faces.Of(net, operation).Where(joint => undone.Contains(net.Find(OperationKind.Undo, joint.Id)) && _cleaned.Add(joint.Id)))
            {
                Write(StepKind.Clean, operation, joint.Id, joint.Name, at, 0, "its faces must be clean and dry before it is done up");
            }

            WriteRenewals(operation, at);
            foreach (var opening in MapTrip.Openings(net, operation, undone))
            {
                Write(StepKind.Uncover, operation, opening.Id, $"{opening.Name}: {opening.Cover}", at, opening.CoverMinutes, $"{operation.Name} closes it next");
            }

            foreach (var joint in net.HiddenBy(undone, step.Operation))
            {
                if (ofThisJob.Contains(net.Find(OperationKind.Undo, joint.Id)))
                {
                    _lastLooks.Add(new LastLook(joint.Id, operation.Target));
                    Write(StepKind.LastLook, operation, joint.Id, joint.Name, joint.At, 0, $"{operation.Name} goes back next and hides it");
                }
            }

            WriteMain(step, operation, operation.BackMinutes, BackKind(operation.Kind), _reasons.Back(step.Operation));
            undone = undone.Without(step.Operation);
            foreach (var proof in proofs.DueWith(undone))
            {
                var of = proofs.NameOfTarget(proof);
                Write(StepKind.Prove, operation, proof.Id, proof.Name, at, proof.Minutes, $"{of} was disturbed; this shows that it is sound again");
            }
        }
    }

    private void WriteRenewals(Operation operation, Position at)
    {
        var due = net.RenewalsFor.GetValueOrDefault(operation.Target, []).ToList();
        var goalPart = operation.Kind == OperationKind.Off && goal.Off.Contains(operation.Target) ? net.NewPart(operation.Target) : null;
        if (goalPart is not null)
        {
            due.Add(goalPart);
        }

        WriteRenewals(due.Where(renewal => renewal != goalPart), operation, at, $"{operation.Name} was disturbed, so this must be new");
        WriteRenewals(due.Where(renewal => renewal == goalPart), operation, at, "to be renewed: a goal of the job");
    }

    private void WriteRenewals(IEnumerable<Renewal> due, Operation operation, Position at, string why)
    {
        foreach (var renewal in due.Where(renewal => !_renewals.Contains(renewal)))
        {
            _renewals.Add(renewal);
            Write(StepKind.Renew, operation, renewal.Id, renewal.Name, at, 0, why);
        }
    }

    private void WriteMain(TripStep step, Operation operation, double minutes, StepKind kind, string why)
    {
        var way = operation.Ways[step.Way];
        var liftGoesUp = way.At == Position.Below && _at != Position.Below;
        _at = way.At;
        var found = kind == StepKind.Undo ? Stuck.About(stuck, operation, way) : null;
        var (runs, runsMinutes) = Started(kind, operation.Target);
        _steps.Add(new PlanStep(
            kind, operation.Target, operation.Name, way.Tool, way.At,
            (MapTrip.Ticks(minutes * way.Times) + MapTrip.Ticks(found?.ExtraMinutes ?? 0)) / MapTrip.TicksPerMinute,
            step.SetUp / MapTrip.TicksPerMinute,
            Cautions.For(net, kind, operation.Target, liftGoesUp), why)
        {
            Chain = _reasons.Leads(operation.Index),
            Way = step.Way,
            Risk = kind <= StepKind.Cover ? way.Risk : null,
            RiskMinutes = kind <= StepKind.Cover ? MapTrip.RiskTicks(way) / MapTrip.TicksPerMinute : 0,
            Found = found is null ? null : Stuck.Words(net, found),
            WaitMinutes = step.Wait / MapTrip.TicksPerMinute,
            WaitFor = _running.Count(step),
            Runs = runs,
            RunsMinutes = runsMinutes,
        });
    }

    /// <summary>What goes on by itself once the step is done.</summary>
    private (string? Runs, double Minutes) Started(StepKind kind, string target) => kind switch
    {
        StepKind.MakeSafe when net.Supplies[target] is { RunsMinutes: > 0 } supply => (Running.Verb(supply.Kind), supply.RunsMinutes),
        StepKind.Make when net.Joints[target] is { CuresMinutes: > 0 } joint => ("cures", joint.CuresMinutes),
        _ => (null, 0),
    };

    /// <param name="with">The operation that calls for it.</param>
    private void Write(StepKind kind, Operation with, string target, string name, Position at, double minutes, string why) =>
        _steps.Add(new PlanStep(
            kind, target, name, Tool.Hand, at, MapTrip.Ticks(minutes) / MapTrip.TicksPerMinute, 0, Cautions.For(net, kind, target, false), why)
        {
            Chain = [with.Target, .. _reasons.Leads(with.Index)],
        });

    private static StepKind OutKind(OperationKind kind) => kind switch
    {
        OperationKind.MakeSafe => StepKind.MakeSafe,
        OperationKind.Undo => StepKind.Undo,
        OperationKind.Aside => StepKind.LayAside,
        OperationKind.Off => StepKind.TakeOff,
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    private static StepKind BackKind(OperationKind kind) => kind switch
    {
        OperationKind.MakeSafe => StepKind.Restore,
        OperationKind.Undo => StepKind.Make,
        OperationKind.Aside => StepKind.BringHome,
        OperationKind.Off => StepKind.Fit,
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };
}
