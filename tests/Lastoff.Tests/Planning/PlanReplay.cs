using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Tests.Planning;

/// <summary>Goes through a plan step by step against the net, as it is written: that tool, from that side, in those minutes, at that risk.</summary>
internal static class PlanReplay
{
    public static int? Operation(OperationNet net, PlanStep step) => step.Kind switch
    {
        StepKind.MakeSafe or StepKind.Restore => net.Find(OperationKind.MakeSafe, step.Target),
        StepKind.Undo or StepKind.Make => net.Find(OperationKind.Undo, step.Target),
        StepKind.LayAside or StepKind.BringHome => net.Find(OperationKind.Aside, step.Target),
        StepKind.TakeOff or StepKind.Fit => net.Find(OperationKind.Off, step.Target),
        _ => null,
    };

    /// <summary>What is undone after these steps, or null when one of them cannot be done as it is written.</summary>
    /// <param name="stuck">What was found at stuck joints: a way that is closed may not be taken, and minutes more are in the step.</param>
    public static OperationSet? Out(OperationNet net, OperationSet done, IEnumerable<PlanStep> steps, IReadOnlyList<JointStuck>? stuck = null)
    {
        foreach (var step in steps)
        {
            if (Operation(net, step) is { } x)
            {
                if (!net.CanDo(done, x) || !IsAsWritten(net.Operations[x], step, done, net.Operations[x].OutMinutes, stuck ?? []))
                {
                    return null;
                }

                done = done.With(x);
            }
        }

        return done;
    }

    /// <summary>What is still undone after these steps, or null when one of them cannot be reversed as it is written.</summary>
    public static OperationSet? Back(OperationNet net, OperationSet done, IEnumerable<PlanStep> steps)
    {
        foreach (var step in steps)
        {
            if (Operation(net, step) is { } x)
            {
                if (!net.CanReverse(done, x) || !IsAsWritten(net.Operations[x], step, done.Without(x), net.Operations[x].BackMinutes, []))
                {
                    return null;
                }

                done = done.Without(x);
            }
        }

        return done;
    }

    /// <summary>What was last found that is about this way, read straight from the list.</summary>
    public static JointStuck? Found(IReadOnlyList<JointStuck> stuck, Operation operation, Way way) => operation.Kind != OperationKind.Undo ? null
        : stuck.LastOrDefault(s => s.Joint == operation.Target && (s.With is null || (s.With == way.Tool.ToString() && s.At == way.At)));

    private static bool IsAsWritten(Operation operation, PlanStep step, OperationSet done, double minutes, IReadOnlyList<JointStuck> stuck) =>
        operation.Ways.Any(way => way.Tool == step.Tool && way.At == step.At && way.IsOpen(done) && (step.Kind > StepKind.Cover || step.Risk == way.Risk)
            && Found(stuck, operation, way) is not { IsClosed: true } and var found
            && Math.Abs(minutes * way.Times + (found?.ExtraMinutes ?? 0) - step.Minutes) < 0.0011);
}
