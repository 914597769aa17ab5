using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>What to do now: the plan gives the order of the moves, the standing says what each of them wants first.</summary>
/// <remarks>
/// A plan made earlier stays good for as long as it fits, whatever was done in between and by whom; covers, faces, new parts and last
/// looks are read from the standing alone, so a plan made half way cannot miss one.
/// </remarks>
public static class NextStep
{
    /// <summary>The next thing to do, or null when the plan has nothing more.</summary>
    public static PlanStep? Of(Standing standing, Plan plan)
    {
        var net = standing.Net;
        if (net.Map.Openings.FirstOrDefault(o => standing.IsBare(o) && !standing.EverCovered.Contains(o.Id)) is { } bare)
        {
            return Step(net, plan.Out, StepKind.Cover, bare.Id);
        }

        if (GoalLeft.IsAhead(standing))
        {
            return plan.Out.FirstOrDefault(step => IsAhead(standing, step));
        }

        // Where something was undone against the map, the step whose turn it is may have to wait for a later one.
        List<PlanStep> ahead = [.. plan.Back.Where(step => step.Kind == StepKind.Prove ? IsOwed(standing, step.Target) : IsAhead(standing, step))];
        if ((ahead.FirstOrDefault(step => CanBeNow(standing, step)) ?? ahead.FirstOrDefault()) is { } back)
        {
            if (back.Kind == StepKind.Prove && standing.WentBackFor.FirstOrDefault(proof => IsOwed(standing, proof)) is { } failed)
            {
                back = ToProve(net, plan, failed);
            }

            if (ChangesDue.Before(standing, back) is { } again)
            {
                return Step(net, plan.Out, StepKind.MakeSafe, again);
            }

            if (back.Kind == StepKind.Prove && BeforeProofs(standing) is var (what, of))
            {
                return Step(net, plan.Back, what, of);
            }

            return LooksFirst(net, back, ahead) && ReLookOwed(standing, plan) is { } before ? before
                : First(standing, back) is var (kind, target) ? Step(net, plan.Back, kind, target)
                : back;
        }

        if (BeforeProofs(standing) is var (left, leftOf))
        {
            return Step(net, plan.Back, left, leftOf);
        }

        // What asks least of the machine first: a leak shows at once, a long run at the end.
        var proof = OpenItems.Of(standing).Where(item => item.Kind == OpenKind.Proof).Select(item => net.Proofs[item.Target]).Where(owed => !ChangesDue.IsDue(standing, owed.For))
            .OrderByDescending(owed => standing.WentBackFor.Contains(owed.Id)).ThenBy(ProofNeeds.NeedsTheWholeMachine).ThenBy(owed => owed.Minutes).FirstOrDefault();
        return ReLookOwed(standing, plan) ?? (proof is not null ? ToProve(net, plan, proof.Id)
            : ChangesDue.Before(standing, null) is { } last ? Step(net, plan.Out, StepKind.MakeSafe, last)
            : null);
    }

    /// <summary>What nothing that goes back waits for: work of its own, and a new thing that is for nothing in particular.</summary>
    private static (StepKind Kind, string Target)? BeforeProofs(Standing standing) =>
        OwnWork.OwedAnyTime(standing).FirstOrDefault() is { } work ? (StepKind.Work, work.What)
        : standing.WasOpen(Renewal.Alone) && standing.RenewalsOwed(Renewal.Alone).FirstOrDefault(renewal => !standing.Renewed.Contains(renewal.Id)) is { } wanted ? (StepKind.Renew, wanted.Id)
        : null;

    /// <summary>The proofs that can be taken now; whoever has one at hand takes that first.</summary>
    public static IEnumerable<Proof> ProofsNow(Standing standing) => standing.Net.Map.Proofs.Where(proof => IsOwed(standing, proof.Id));

    public static PlanStep ToProve(OperationNet net, Plan plan, string proof) => Step(net, plan.Back, StepKind.Prove, proof);

    /// <summary>Nobody looks closely at what is under pressure, may start or lies behind a shield: before the proofs, and once nothing is left to tighten before a supply comes back or anything more is fitted.</summary>
    private static bool LooksFirst(OperationNet net, PlanStep back, List<PlanStep> ahead) => back.Kind == StepKind.Prove
        || (back.Kind is StepKind.Restore or StepKind.Fit or StepKind.BringHome && !ahead.Any(step => step.Kind == StepKind.Make && net.Joints[step.Target].Passes.Count > 0));

    /// <summary>A tightened joint is looked at once more before it is hidden or else before the supplies and the proofs: some time has then passed, and it may be another's look.</summary>
    private static PlanStep? ReLookOwed(Standing standing, Plan plan) =>
        ReLook.Owed(standing).FirstOrDefault() is { } joint ? Step(standing.Net, plan.Back, StepKind.ReLook, joint.Id) : null;

    /// <summary>Whether the plan still leads from here to the end: if not, another has to be made.</summary>
    public static bool Fits(Standing standing, Plan plan)
    {
        var next = Of(standing, plan);
        if (next is null)
        {
            return standing.Done.Count == 0 && !GoalLeft.IsAhead(standing);
        }

        var returns = OperationSet.Of(standing.Net.Operations.Count, plan.Back.Select(step => OperationOf(standing.Net, step)).OfType<int>());
        return standing.Done.IsSubsetOf(returns)
            && TakesUp(standing, plan)
            && EndsBackIn(standing, plan)
            && GoalsAhead(standing).All(returns.Contains)
            && BringsWhatIsNew(standing, plan)
            && (next.Kind == StepKind.Prove || Guards.Check(standing, next.ToAct(standing)) is null);
    }

    /// <summary>Whether the plan knows what was found at stuck joints. Undone, a joint is not stuck any more.</summary>
    private static bool TakesUp(Standing standing, Plan plan) =>
        plan.Stuck.Where(stuck => !standing.IsDone(OperationKind.Undo, stuck.Joint)).ToHashSet().SetEquals(standing.Stuck);

    /// <summary>A part that comes off anyway may have become a goal since, and then its new one is wanted.</summary>
    private static bool BringsWhatIsNew(Standing standing, Plan plan) =>
        GoalLeft.Of(standing).Off.Select(standing.Net.NewPart).All(part => plan.Renewals.Any(renewal => renewal.Id == part.Id));

    /// <summary>Gone back in for one joint, nobody takes the whole machine apart again: the way out ends at a goal.</summary>
    private static bool EndsBackIn(Standing standing, Plan plan) => standing.ToUndoAgain.Count == 0
        || MovesAhead(standing, plan).LastOrDefault(step => !step.Kind.AsMove()!.Value.IsBack()) is { } last && GoalsAhead(standing).Contains(OperationOf(standing.Net, last)!.Value);

    private static IEnumerable<int> GoalsAhead(Standing standing) =>
        standing.GoalParts.Where(part => GoalLeft.IsAhead(standing, part)).Select(part => standing.Net.Find(OperationKind.Off, part))
            .Concat(standing.GoalJoints.Where(joint => !standing.WasOpen(joint)).Union(standing.ToUndoAgain).Select(joint => standing.Net.Find(OperationKind.Undo, joint)));

    /// <summary>The moves that the plan still has before it, out and back.</summary>
    public static IReadOnlyList<PlanStep> MovesAhead(Standing standing, Plan plan)
    {
        List<PlanStep> outward = GoalLeft.IsAhead(standing) ? [.. plan.Out.Where(step => IsAhead(standing, step))] : [];
        var undone = OperationSet.Of(standing.Net.Operations.Count, standing.Done.Concat(outward.Select(step => OperationOf(standing.Net, step)).OfType<int>()));
        return [.. outward, .. plan.Back.Where(step => OperationOf(standing.Net, step) is { } operation && undone.Contains(operation))];
    }

    /// <summary>The minutes that the plan still has before it: the moves, their covers, and the proofs not taken. Either way begins as every plan does.</summary>
    internal static double MinutesAhead(Standing standing, Plan plan)
    {
        var moves = MovesAhead(standing, plan).ToLookup(step => step.Kind.AsMove()!.Value.IsBack());
        return Ahead(moves[false]) + Covers(moves[false], plan.Out) + Ahead(moves[true]) + Covers(moves[true], plan.Back)
            + plan.Back.Where(step => step.Kind == StepKind.Prove && standing.Readings.GetValueOrDefault(step.Target)?.Verdict != Verdict.Good).Sum(step => step.AllMinutes);

        double Ahead(IEnumerable<PlanStep> way) =>
            way.Sum(step => step.AllMinutes) + (way.FirstOrDefault() is { } first ? FromTheStart(standing.Net.Map.SetUp, first) - first.SetUpMinutes : 0);

        double Covers(IEnumerable<PlanStep> way, IReadOnlyList<PlanStep> steps) =>
            steps.Where(step => step.Kind is StepKind.Cover or StepKind.Uncover && way.Any(move => move.Target == standing.Net.Openings[step.Target].On)).Sum(step => step.AllMinutes);
    }

    /// <summary>The set-up of a step that nothing comes before: bare-handed, in front, lift down.</summary>
    private static double FromTheStart(SetUpMinutes setUp, PlanStep step) =>
        (step.Tool.IsHand ? 0 : setUp.Tool) + (step.At == Position.Front ? 0 : setUp.Position) + (step.At == Position.Below ? setUp.Lift : 0);

    private static bool IsAhead(Standing standing, PlanStep step) =>
        OperationOf(standing.Net, step) is { } operation
        && (step.Kind.AsMove()!.Value.IsBack()
            ? standing.Done.Contains(operation)
            : !standing.Done.Contains(operation) && !(step.Kind == StepKind.LayAside && standing.IsDone(OperationKind.Off, step.Target)));

    private static bool CanBeNow(Standing standing, PlanStep step) =>
        step.Kind == StepKind.Prove || First(standing, step) is not null || Guards.Check(standing, step.ToAct(standing)) is null;

    /// <summary>Whether the proof can be taken and has not come out well.</summary>
    private static bool IsOwed(Standing standing, string proof) =>
        standing.Net.Proofs[proof] is var owed
        && standing.WasOpen(owed.For) && ProofNeeds.Of(standing.Net, owed, standing.Done).Count == 0
        && standing.Readings.GetValueOrDefault(proof)?.Verdict != Verdict.Good && !ChangesDue.IsDue(standing, owed.For);

    private static int? OperationOf(OperationNet net, PlanStep step) =>
        step.Kind.AsMove() is { } move && net.TryFind(move.Operation(), step.Target, out var operation) ? operation : null;

    /// <summary>What has to be done before this move of the way back; null when nothing.</summary>
    private static (StepKind Kind, string Target)? First(Standing standing, PlanStep back)
    {
        var net = standing.Net;
        if (OperationOf(net, back) is not { } operation)
        {
            return null;
        }

        if (LastLooks.Owed(standing, operation).FirstOrDefault() is { } unseen)
        {
            return (unseen.Passes.Count > 0 ? StepKind.ReLook : StepKind.LastLook, unseen.Id);
        }

        // Before anything is cleaned for the last time: it makes dirt of its own.
        if (OwnWork.OwedBefore(standing, back.Target).FirstOrDefault() is { } work)
        {
            return (StepKind.Work, work.What);
        }

        if (Faces.Of(net, net.Operations[operation]).FirstOrDefault(joint => standing.IsDone(OperationKind.Undo, joint.Id) && !standing.Cleaned.Contains(joint.Id)) is { } bare)
        {
            return (StepKind.Clean, bare.Id);
        }

        // What broke in a joint of the part is run in with the part; what is for no part is had ready before any goes home.
        if (standing.RenewalsOwed(back.Target).Concat(standing.RenewalsOwed(Renewal.Alone)).Concat(back.Kind == StepKind.Fit ? standing.NewPieces.Where(piece => net.Joints[piece.For].Holds.Contains(back.Target)) : [])
            .FirstOrDefault(r => !standing.Renewed.Contains(r.Id)) is { } renewal)
        {
            return (StepKind.Renew, renewal.Id);
        }

        // A part fitted where it hung aside closes nothing yet.
        var closes = back.Kind != StepKind.Fit || !standing.IsDone(OperationKind.Aside, back.Target);
        return closes && net.OpeningsOn.GetValueOrDefault(back.Target, []).FirstOrDefault(o => standing.Covered.Contains(o.Id)) is { } covered
            ? (StepKind.Uncover, covered.Id)
            : null;
    }

    /// <summary>The plan's own step when it has one, for its minutes and its reason.</summary>
    private static PlanStep Step(OperationNet net, IReadOnlyList<PlanStep> steps, StepKind kind, string target) =>
        steps.FirstOrDefault(step => step.Kind == kind && step.Target == target)
        ?? new PlanStep(kind, target, NameOf(net, kind, target), kind == StepKind.MakeSafe ? net.Supplies[target].Tool : Tool.Hand, PlaceOf(net, kind, target), 0, 0, Cautions.For(net, kind, target, liftGoesUp: false), "");

    private static string NameOf(OperationNet net, StepKind kind, string target) => kind switch
    {
        StepKind.Cover or StepKind.Uncover => net.Openings[target].Name,
        StepKind.Prove => net.Proofs[target].Name,
        StepKind.MakeSafe => net.Supplies[target].Name,
        StepKind.Renew => net.RenewalNamed(target)?.Name ?? target,
        StepKind.Work => target,
        _ => net.Joints[target].Name,
    };

    private static Position PlaceOf(OperationNet net, StepKind kind, string target)
    {
        var at = kind switch
        {
            StepKind.Cover or StepKind.Uncover => net.Openings[target].On,
            StepKind.Prove => net.Proofs[target].For,
            StepKind.Renew => net.RenewalNamed(target)?.For ?? target,
            _ => target,
        };
        return net.Parts.TryGetValue(at, out var part) ? part.At
            : net.Joints.TryGetValue(at, out var joint) ? joint.At
            : net.Supplies.TryGetValue(at, out var supply) ? supply.At
            : Position.Above;
    }
}
