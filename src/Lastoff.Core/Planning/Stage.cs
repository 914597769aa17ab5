using Lastoff.Core.Ledger;

namespace Lastoff.Core.Planning;

/// <summary>The stages of a job, in the order of the work.</summary>
public enum Stage { Agree, Strip, Fit, Fill, Prove, HandOver }

public static class Stages
{
    /// <summary>The stage a job is in, told by what is to be done next.</summary>
    /// <remarks>Without a map the work begins with finding out what to agree on: the yes is got once all is home, if not before.</remarks>
    /// <param name="isPutOff">Where the yes to more work waits while what is agreed goes on.</param>
    public static Stage Of(Standing standing, PlanStep? next, bool isPutOff = false) => standing.Agreed is null && !isPutOff && (next is null || standing.Opened is not { HasMap: false }) ? Stage.Agree : next?.Kind switch
    {
        null => Stage.HandOver,
        StepKind.Prove => Stage.Prove,
        StepKind.Restore => Stage.Fill,
        // One more change belongs to the filling.
        StepKind.MakeSafe when standing.Filled.Any(filled => filled.Target == next.Target && filled.ChangesLeft > 0) => Stage.Fill,
        StepKind.Work when standing.Done.Count == 0 => Stage.Prove,
        <= StepKind.Cover => Stage.Strip,
        _ => Stage.Fit,
    };
}
