using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>What a plan could not know: more work, a stuck joint, a move out of its turn.</summary>
public static class Surprise
{
    /// <summary>Why the plan at hand has to be looked at again after this act, as a sentence without its full stop; null when it went as planned.</summary>
    /// <param name="before">Where the job stood before the act.</param>
    /// <param name="plan">The plan at hand then.</param>
    public static string? Of(Standing before, Act act, Plan plan) => act switch
    {
        // The first work that is taken in is no more work.
        GoalAdded when before.IsUndecided => null,
        GoalAdded added => $"More work is taken in: {Work(before.Net, added)}",
        BackIn back => $"Gone back in to “{before.Net.Joints[back.Joint].Name}”",
        JointStuck stuck => Stuck.Words(before.Net, stuck),
        Moved moved => OutOfTurn(before, moved, plan),
        _ => null,
    };

    private static string Work(OperationNet net, GoalAdded added) => string.Join(", ",
        added.Off.Select(part => $"“{net.Parts[part].Name}”").Concat(added.Undo.Select(joint => $"“{net.Joints[joint].Name}”")));

    private static string? OutOfTurn(Standing before, Moved moved, Plan plan)
    {
        var ahead = NextStep.MovesAhead(before, plan);
        var kind = moved.Move.AsStep();
        var what = $"“{before.Net.Operations[before.Net.Find(moved.Move.Operation(), moved.Target)].Name}” was {moved.Move.Done()}";
        return !string.IsNullOrWhiteSpace(moved.Despite) ? $"{what} against the map ({moved.Despite.Trim().TrimEnd('.')})"
            : IsIt(ahead.FirstOrDefault()) || IsIt(NextStep.Of(before, plan)) ? null
            : ahead.Any(IsIt) ? $"{what} before its turn"
            : $"{what}, which was not in the plan";

        bool IsIt(PlanStep? step) => step is not null && (step.Kind, step.Target) == (kind, moved.Target);
    }
}
