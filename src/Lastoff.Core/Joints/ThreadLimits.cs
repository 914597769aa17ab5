namespace Lastoff.Core.Joints;

/// <summary>The limits of size that make the worst thread pair allowed: 6g bolt in 6H hole (ISO 965-1), or 2A in 2B (ASME B1.1).</summary>
/// <remarks>
/// The tolerance formulas of ISO 965-1:2013, rounded to the R40 preferred numbers as its tables are, and of ASME B1.1-2003 for a length of engagement of
/// one diameter; both from memory, checked against printed limits of single threads. The tables differ from the formulas by one rounding step at most,
/// which moves a shear area by less than 1 %.
/// </remarks>
public sealed record ThreadLimits
{
    private ThreadLimits(double boltMajorLeast, double boltPitchLeast, double holePitchMost, double holeMinorMost)
    {
        (BoltMajorLeast_mm, BoltPitchLeast_mm, HolePitchMost_mm, HoleMinorMost_mm) = (boltMajorLeast, boltPitchLeast, holePitchMost, holeMinorMost);
    }

    public double BoltMajorLeast_mm { get; }
    public double BoltPitchLeast_mm { get; }
    public double HolePitchMost_mm { get; }
    public double HoleMinorMost_mm { get; }

    public static ThreadLimits Of(ScrewThread thread) => thread.IsMetric ? Metric(thread) : Inches(thread);

    private static ThreadLimits Metric(ScrewThread thread)
    {
        var (d, p) = (thread.Diameter_mm, thread.Pitch_mm);
        var allowance = Math.Round(15 + 11 * p);
        var pitch = 90 * Math.Pow(p, 0.4) * Math.Pow(MeanOfStep(d), 0.1);
        var minor = p < 1 ? 433 * p - 190 * Math.Pow(p, 1.22) : 230 * Math.Pow(p, 0.7);
        return new ThreadLimits(
            d - (allowance + Preferred(180 * Math.Pow(p, 2.0 / 3) - 3.15 / Math.Sqrt(p))) / 1000,
            thread.PitchDiameter_mm - (allowance + Preferred(pitch)) / 1000,
            thread.PitchDiameter_mm + Preferred(1.32 * pitch) / 1000,
            thread.MinorDiameter_mm + Preferred(minor) / 1000);
    }

    private static ThreadLimits Inches(ScrewThread thread)
    {
        const double Inch = Measure.MillimetresPerInch;
        var (d, p) = (thread.Diameter_mm / Inch, thread.Pitch_mm / Inch);
        var pitch = 0.0015 * Math.Cbrt(d) + 0.0015 * Math.Sqrt(d) + 0.015 * Math.Pow(p, 2.0 / 3);
        var allowance = 0.3 * pitch;
        var minor = d < 0.25
            ? Math.Clamp(0.05 * Math.Pow(p, 2.0 / 3) + 0.03 * p / d - 0.002, 0.25 * p - 0.4 * p * p, 0.394 * p)
            : 0.25 * p - 0.4 * p * p;
        return new ThreadLimits(
            thread.Diameter_mm - (allowance + 0.06 * Math.Pow(p, 2.0 / 3)) * Inch,
            thread.PitchDiameter_mm - (allowance + pitch) * Inch,
            thread.PitchDiameter_mm + 1.3 * pitch * Inch,
            thread.MinorDiameter_mm + minor * Inch);
    }

    // ISO 965-1 computes pitch-diameter tolerances at the geometric mean of a step of diameters.
    private static double MeanOfStep(double diameter_mm)
    {
        double[] steps = [0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45, 90];
        var above = Array.FindIndex(steps, s => s >= diameter_mm);
        return Math.Sqrt(steps[above - 1] * steps[above]);
    }

    // The R40 series of ISO 3, in micrometres.
    private static double Preferred(double micrometres)
    {
        double[] series = [1, 1.06, 1.12, 1.18, 1.25, 1.32, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2, 2.12, 2.24, 2.36, 2.5, 2.65, 2.8, 3, 3.15, 3.35, 3.55, 3.75,
            4, 4.25, 4.5, 4.75, 5, 5.3, 5.6, 6, 6.3, 6.7, 7.1, 7.5, 8, 8.5, 9, 9.5, 10];
        var decade = Math.Pow(10, Math.Floor(Math.Log10(micrometres)));
        return decade * series.MinBy(s => Math.Abs(s - micrometres / decade));
    }
}
