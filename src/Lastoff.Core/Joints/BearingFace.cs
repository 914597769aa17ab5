using System.Globalization;

namespace Lastoff.Core.Joints;

/// <summary>The ring under the head or nut on which it turns; its mean diameter is the arm of the head's friction.</summary>
public sealed record BearingFace
{
    // Bearing face of hexagon heads, dw least, product grade A (ISO 4014:2011), and medium clearance holes (ISO 273:1979). From memory; they reproduce the
    // published preload and torque table for fine threads (VDI 2230:2001) to its rounding.
    private static readonly (double Diameter_mm, double Outer_mm, double Hole_mm)[] Hexagon =
    [
        (3, 4.57, 3.4), (4, 5.88, 4.5), (5, 6.88, 5.5), (6, 8.88, 6.6), (8, 11.63, 9), (10, 14.63, 11), (12, 16.63, 13.5), (14, 19.64, 15.5),
        (16, 22.49, 17.5), (18, 25.34, 20), (20, 28.19, 22), (22, 31.71, 24), (24, 33.61, 26),
    ];

    private BearingFace(double meanDiameter_mm, string source) => (MeanDiameter_mm, Source) = (meanDiameter_mm, source);

    public double MeanDiameter_mm { get; }

    /// <summary>Where the diameters come from.</summary>
    public string Source { get; }

    /// <summary>The face of an ordinary hexagon head over a medium clearance hole, where no other is stated.</summary>
    public static BearingFace For(ScrewThread thread) => Ordinary(thread) is var (outer, hole)
        ? new BearingFace((outer + hole) / 2, "hexagon head of ISO 4014 over a medium hole of ISO 273")
        : new BearingFace(1.3 * thread.Diameter_mm, "taken as 1.3 times the thread diameter, a handbook's approximation");

    /// <summary>A stated face; what is not stated is taken from the ordinary hexagon head.</summary>
    public static Answer<BearingFace> Stated(ScrewThread thread, double? outer_mm, double? hole_mm)
    {
        var outer = outer_mm ?? Ordinary(thread)?.Outer;
        var hole = hole_mm ?? Ordinary(thread)?.Hole;
        if (outer is not { } o || hole is not { } h)
        {
            return Answer.None<BearingFace>($"{thread}: the head of this size is not in the table here; state both the bearing diameter and the hole.");
        }

        return double.IsFinite(o) && h > 0 && o > h
            ? Answer.Of(new BearingFace((o + h) / 2, "stated"))
            : Answer.None<BearingFace>(string.Create(CultureInfo.InvariantCulture, $"A bearing face {o:0.##} mm across over a hole of {h:0.##} mm carries nothing; look at both figures."));
    }

    private static (double Outer, double Hole)? Ordinary(ScrewThread thread)
    {
        var at = thread.IsMetric ? Array.FindIndex(Hexagon, row => row.Diameter_mm == thread.Diameter_mm) : -1;
        return at < 0 ? null : (Hexagon[at].Outer_mm, Hexagon[at].Hole_mm);
    }
}
