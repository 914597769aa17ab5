using Lastoff.Core.Fluids;
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

    /// <summary>The minutes that nine jobs out of ten stay within.</summary>
    public static double MinutesP90(OperationNet net, IEnumerable<PlanStep> steps) => MinutesAt(net, steps, 0.9);

    /// <summary>The minutes that so many of all jobs stay within.</summary>
    /// <param name="chance">Between 0 and 1: 0.9 is nine jobs out of ten.</param>
    public static double MinutesAt(OperationNet net, IEnumerable<PlanStep> steps, double chance)
    {
        double mean = 0, variance = 0;
        foreach (var step in steps)
        {
            Add(step.Minutes, Of(net, step.Kind, step.Target));
            Add(step.SetUpMinutes, OfSetUp);
            Add(step.WaitMinutes, OfWait);
            AddRisk(step.Risk);
        }

        if (mean == 0)
        {
            return 0;
        }

        var ownVariance = Math.Log(1 + variance / (mean * mean));
        var median = mean * Math.Exp(-ownVariance / 2);
        return median * Math.Exp(Gauss.Quantile(chance) * Math.Sqrt(ownVariance + Common * Common));

        void Add(double minutes, double spread)
        {
            mean += Mean(minutes, spread);
            variance += Variance(minutes, spread);
        }

        // Either it happens, with a spread of its own, or nothing is added.
        void AddRisk(Risk? risk)
        {
            if (risk is not null)
            {
                var whenItHappens = Mean(risk.Minutes, OfRisk);
                mean += risk.Chance * whenItHappens;
                variance += risk.Chance * ((1 - risk.Chance) * whenItHappens * whenItHappens + Variance(risk.Minutes, OfRisk));
            }
        }
    }

    private static double Mean(double minutes, double spread) => minutes * Math.Exp(spread * spread / 2);

    private static double Variance(double minutes, double spread) => Mean(minutes, spread) * Mean(minutes, spread) * (Math.Exp(spread * spread) - 1);

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
