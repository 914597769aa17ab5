namespace Lastoff.Core.Joints;

/// <summary>Whether the friction stated leaves a bolt below its yield at a torque.</summary>
public enum YieldReach { Below, PastAtLowFriction, PastAtAnyFriction }

/// <summary>The tension one torque gives over the whole friction range.</summary>
/// <param name="PreloadLow_N">At the highest friction; null past yield, where the formula no longer holds.</param>
/// <param name="PreloadHigh_N">At the lowest friction; null past yield.</param>
/// <param name="Utilisation">The most it can be, where 1 is 90 % of yield by combined stress; null when it can go past yield.</param>
public sealed record Tension(double? PreloadLow_N, double? PreloadHigh_N, double? Utilisation, YieldReach Yield);

/// <summary>
/// A bolt being tightened: torque and preload by the long form, with pitch, thread friction and bearing friction apart, and the preload that twists
/// and pulls the bolt to 90 % of its yield together.
/// </summary>
/// <remarks>
/// VDI 2230 part 1 (2001), from memory; its fine-thread table is reproduced. Plain 60° threads, elastic range. Friction is an interval, so every
/// result is one, found at its corners: for a fixed torque the utilisation has no peak between them.
/// </remarks>
public sealed record Tightening(ScrewThread Thread, Strength Strength, BearingFace Face, Friction ThreadFriction, Friction HeadFriction)
{
    /// <summary>The share of yield a plain tightening may use; VDI 2230 leaves the rest for what comes in service.</summary>
    public const double ShareOfYield = 0.9;

    /// <summary>Whose formula it is: tables after the edition of 1986 are about 8 % lower.</summary>
    public const string Method = "VDI 2230:2001, 90 % of yield by combined stress";

    private const double Sec30 = 1.1547005383792515;

    private IEnumerable<(double Thread, double Head)> Corners =>
        from thread in (double[])[ThreadFriction.Range.Low, ThreadFriction.Range.High]
        from head in (double[])[HeadFriction.Range.Low, HeadFriction.Range.High]
        select (thread, head);

    /// <summary>The preload at 90 % of yield, least (high thread friction twists the shank more) to most.</summary>
    public Interval PreloadMax_N => new(YieldLimited_N(ThreadFriction.Range.High), YieldLimited_N(ThreadFriction.Range.Low));

    /// <summary>The highest torque that stays within 90 % of yield whatever the friction within its range.</summary>
    public Torque TorqueMax => Torque.FromNewtonMetres(Corners.Min(c => Arm_m(c.Thread, c.Head) * YieldLimited_N(c.Thread)));

    /// <summary>The torque that gives a preload, over the friction range.</summary>
    public Interval TorqueFor_Nm(double preload_N) => Interval.Of(Corners.Select(c => Arm_m(c.Thread, c.Head) * preload_N));

    /// <summary>The share of 90 % yield a preload takes, at the thread friction that twists most.</summary>
    public double UtilisationAt(double preload_N) => preload_N / PreloadMax_N.Low;

    /// <summary>What a torque pulls, over the friction range.</summary>
    public Tension At(Torque torque)
    {
        var ends = Corners.Select(c => (Preload: torque.NewtonMetres / Arm_m(c.Thread, c.Head), Use: torque.NewtonMetres / Arm_m(c.Thread, c.Head) / YieldLimited_N(c.Thread)))
            .OrderBy(e => e.Preload).ToArray();
        var past = ends.Count(e => e.Use * ShareOfYield > 1);
        return new Tension(
            ends[0].Use * ShareOfYield > 1 ? null : ends[0].Preload,
            past > 0 ? null : ends[^1].Preload,
            past > 0 ? null : ends.Max(e => e.Use),
            past == 0 ? YieldReach.Below : past == ends.Length ? YieldReach.PastAtAnyFriction : YieldReach.PastAtLowFriction);
    }

    /// <summary>What the bolt can at most press with at a torque: the elastic preload at the lowest friction, or what breaks it.</summary>
    public double MostPull_N(Torque torque) => Math.Min(torque.NewtonMetres / LeastArm_m, Strength.TensileLoad_N(Thread));

    /// <summary>The torque at which, at the lowest friction, a preload is reached.</summary>
    public Torque TorqueReaching(double preload_N) => Torque.FromNewtonMetres(preload_N * LeastArm_m);

    private double LeastArm_m => Arm_m(ThreadFriction.Range.Low, HeadFriction.Range.Low);

    /// <summary>Torque per newton of preload.</summary>
    private double Arm_m(double threadFriction, double headFriction) =>
        (Thread.Pitch_mm / (2 * Math.PI) + Sec30 / 2 * Thread.PitchDiameter_mm * threadFriction + Face.MeanDiameter_mm / 2 * headFriction) / 1000;

    /// <summary>Tension with the thread's part of the torque as a full plastic twist of the stress section (the factor 1.5), by von Mises.</summary>
    private double YieldLimited_N(double threadFriction)
    {
        var (d0, d2) = (Thread.StressDiameter_mm, Thread.PitchDiameter_mm);
        var twist = 1.5 * d2 / d0 * (Thread.Pitch_mm / (Math.PI * d2) + Sec30 * threadFriction);
        return Thread.StressArea_mm2 * ShareOfYield * Strength.Yield_MPa / Math.Sqrt(1 + 3 * twist * twist);
    }
}
