namespace Lastoff.Core.Joints;

public enum WeakestPlace { BoltShank, BoltThread, BossThread }

/// <summary>Whether a thread pair strips before its bolt breaks.</summary>
/// <remarks>
/// FED-STD-H28/2B as given in Machinery's Handbook (24th edition): shear areas at the worst limits of size, shear strength taken as half the tensile
/// strength, load shared evenly by all engaged turns. 60° threads of full form; no allowance for a boss that spreads, a bell-mouthed hole or creep.
/// </remarks>
public sealed record Stripping
{
    private Stripping(ScrewThread thread, double engaged_mm, double boltTensile_MPa, double bossTensile_MPa)
    {
        (Thread, Engaged_mm, BoltTensile_MPa, BossTensile_MPa) = (thread, engaged_mm, boltTensile_MPa, bossTensile_MPa);
        var limits = ThreadLimits.Of(thread);
        var turn = Math.PI / thread.Pitch_mm;
        var tan30 = 1 / Math.Sqrt(3);
        BoltAreaPerLength_mm = turn * limits.HoleMinorMost_mm * (thread.Pitch_mm / 2 + tan30 * (limits.BoltPitchLeast_mm - limits.HoleMinorMost_mm));
        BossAreaPerLength_mm = turn * limits.BoltMajorLeast_mm * (thread.Pitch_mm / 2 + tan30 * (limits.BoltMajorLeast_mm - limits.HolePitchMost_mm));
    }

    public ScrewThread Thread { get; }
    public double Engaged_mm { get; }
    public double BoltTensile_MPa { get; }
    public double BossTensile_MPa { get; }
    /// <summary>Shear area of the bolt's thread for each millimetre engaged.</summary>
    public double BoltAreaPerLength_mm { get; }
    /// <summary>Shear area of the hole's thread for each millimetre engaged.</summary>
    public double BossAreaPerLength_mm { get; }
    public double BoltArea_mm2 => BoltAreaPerLength_mm * Engaged_mm;
    public double BossArea_mm2 => BossAreaPerLength_mm * Engaged_mm;
    public double BoltStrip_N => BoltArea_mm2 * BoltTensile_MPa / 2;
    public double BossStrip_N => BossArea_mm2 * BossTensile_MPa / 2;
    public double BoltBreak_N => Thread.StressArea_mm2 * BoltTensile_MPa;
    /// <summary>What the weaker of the two threads bears.</summary>
    public double Strip_N => Math.Min(BoltStrip_N, BossStrip_N);
    public WeakestPlace WeakerThread => BossStrip_N <= BoltStrip_N ? WeakestPlace.BossThread : WeakestPlace.BoltThread;
    public WeakestPlace FailsFirst => BoltBreak_N <= Strip_N ? WeakestPlace.BoltShank : WeakerThread;
    /// <summary>The length from which the bolt would break before either thread strips.</summary>
    public double Needed_mm => 2 * Thread.StressArea_mm2 / BoltAreaPerLength_mm
        * Math.Max(1, BoltAreaPerLength_mm * BoltTensile_MPa / (BossAreaPerLength_mm * BossTensile_MPa));

    /// <summary>How many times over the weaker thread bears a preload.</summary>
    public double SafetyFactor(double preload_N) => Strip_N / preload_N;

    public static Answer<Stripping> Of(ScrewThread thread, double engaged_mm, double boltTensile_MPa, double bossTensile_MPa) =>
        !double.IsFinite(engaged_mm) || engaged_mm < thread.Pitch_mm ? Answer.None<Stripping>(
            $"{ScrewThread.Text(engaged_mm)} mm is less than one turn of {thread} ({ScrewThread.Text(thread.Pitch_mm)} mm): too little thread for the stripping formula, and for the joint.")
        : engaged_mm > 10 * thread.Diameter_mm ? Answer.None<Stripping>($"{ScrewThread.Text(engaged_mm)} mm engaged is more than ten diameters of {thread}; look for a slip.")
        : !(boltTensile_MPa is >= 1 and <= 3000) || !(bossTensile_MPa is >= 1 and <= 3000)
            ? Answer.None<Stripping>("The tensile strengths of bolt and boss lie between 1 and 3000 MPa; look at the figures and their unit.")
        : Answer.Of(new Stripping(thread, engaged_mm, boltTensile_MPa, bossTensile_MPa));
}
