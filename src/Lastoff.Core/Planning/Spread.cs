using Lastoff.Core.Estimating;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>How far the real time may lie above the typical one.</summary>
/// <remarks>
/// The figures are a prior, set down before any job was measured; times of the workshop's own replace them as they come in.
/// The equations are in docs/methods/planning.md.
/// </remarks>
public static class Spread
{
    /// <summary>The spread that all steps of one job share: the machine's state, the mechanic, the day.</summary>
    public const double Common = 0.15;

    /// <summary>What steps take, before anybody timed work here.</summary>
    public static MinutesEstimate Of(OperationNet net, IReadOnlyList<PlanStep> steps)
    {
        var alone = MinutesEstimate.Of(steps.Aggregate(OfWaitsAndRisks(steps), (sum, step) =>
            sum + Moments.LogNormal(step.Minutes, Of(net, step.Kind, step.Target)) + Moments.LogNormal(step.SetUpMinutes, OfSetUp)));
        return alone with { Deviation = Math.Sqrt((alone.Deviation * alone.Deviation) + (Common * Common)) };
    }

    /// <summary>What steps take beside the work: waiting for what runs by itself, and what may go wrong.</summary>
    public static Moments OfWaitsAndRisks(IReadOnlyList<PlanStep> steps) =>
        steps.Aggregate(new Moments(0, 0), (sum, step) => sum + Moments.LogNormal(step.WaitMinutes, OfWait) + OfChance(step.Risk));

    /// <summary>Either it happens, and takes as long as it likes, or nothing is added.</summary>
    private static Moments OfChance(Risk? risk)
    {
        if (risk is null)
        {
            return default;
        }

        var happens = Moments.LogNormal(risk.Minutes, OfRisk);
        return new Moments(risk.Chance * happens.Mean, risk.Chance * (((1 - risk.Chance) * happens.Mean * happens.Mean) + happens.Variance));
    }

    public const double OfSetUp = 0.3;

    public const double OfWait = 0.2;

    /// <summary>What goes wrong takes as long as it likes.</summary>
    public const double OfRisk = 0.6;

    /// <summary>The standard deviation of the logarithm of a step's minutes.</summary>
    public static double Of(OperationNet net, StepKind kind, string target) => kind switch
    {
        StepKind.Undo => OfUndoing(net.Joints[target].Kind),
        StepKind.Make => 0.25,
        StepKind.TakeOff or StepKind.LayAside => 0.35,
        StepKind.Fit or StepKind.BringHome => 0.3,
        StepKind.MakeSafe or StepKind.Restore => 0.25,
        StepKind.Prove => 0.15,
        _ => 0.2,
    };

    private static double OfUndoing(JointKind kind) => kind switch
    {
        JointKind.Stud or JointKind.Nut or JointKind.Pipe => 0.6,
        JointKind.Bolt or JointKind.Face => 0.5,
        JointKind.Hose or JointKind.Clip => 0.45,
        JointKind.Screw or JointKind.Clamp => 0.35,
        JointKind.Connector or JointKind.Tie => 0.3,
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };
}
