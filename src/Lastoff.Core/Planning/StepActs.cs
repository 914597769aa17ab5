using Lastoff.Core.Ledger;

namespace Lastoff.Core.Planning;

/// <summary>Pairs what a plan says to do with what the ledger records once it is done.</summary>
public static class StepActs
{
    /// <summary>The move a step makes, or null when it moves nothing.</summary>
    public static Move? AsMove(this StepKind kind) => kind switch
    {
        StepKind.MakeSafe => Move.SupplySafe,
        StepKind.Undo => Move.JointUndone,
        StepKind.LayAside => Move.PartAside,
        StepKind.TakeOff => Move.PartOff,
        StepKind.Restore => Move.SupplyRestored,
        StepKind.Make => Move.JointMade,
        StepKind.BringHome => Move.PartHome,
        StepKind.Fit => Move.PartFitted,
        _ => null,
    };

    public static StepKind AsStep(this Move move) => move switch
    {
        Move.SupplySafe => StepKind.MakeSafe,
        Move.JointUndone => StepKind.Undo,
        Move.PartAside => StepKind.LayAside,
        Move.PartOff => StepKind.TakeOff,
        Move.SupplyRestored => StepKind.Restore,
        Move.JointMade => StepKind.Make,
        Move.PartHome => StepKind.BringHome,
        _ => StepKind.Fit,
    };

    /// <summary>What is recorded next for this step: a joint tightened in passes asks for those first, one after the other.</summary>
    /// <inheritdoc cref="ToAct(PlanStep, double?)"/>
    public static Act ToAct(this PlanStep step, Standing standing) =>
        step.Kind == StepKind.Make && PassesMade.AtHand(standing, step.Target) is { } pass ? pass.Whole() : step.ToAct();

    /// <param name="amount_L">For a fluid supply, what came out or went in, if it was measured.</param>
    /// <exception cref="ArgumentException">The step is a proof, which is recorded with its reading.</exception>
    public static Act ToAct(this PlanStep step, double? amount_L = null) => step.Kind switch
    {
        StepKind.Cover => new OpeningCovered(step.Target),
        StepKind.Uncover => new OpeningUncovered(step.Target),
        StepKind.Clean => new FaceCleaned(step.Target),
        StepKind.Renew => new RenewalFitted(step.Target),
        StepKind.LastLook => new LastLookTaken(step.Target),
        StepKind.ReLook => new ReLookTaken(step.Target),
        StepKind.Work => new WorkDone(step.Target),
        StepKind.Prove => throw new ArgumentException("A proof is recorded with its verdict and reading.", nameof(step)),
        _ => new Moved(step.Kind.AsMove()!.Value, step.Target, Amount_L: amount_L),
    };
}
