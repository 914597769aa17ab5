using System.Globalization;

namespace Lastoff.Core.Joints;

public enum ThreadSeries { IsoCoarse, IsoFine, UnifiedCoarse, UnifiedFine }

/// <summary>A 60° screw thread of a standard series, with the diameters its strength is computed from.</summary>
/// <remarks>
/// Profile: ISO 68-1 and ISO 724 for metric, ASME B1.1 for Unified; both have H = (√3/2) P, d2 = d − 0.75 H, D1 = d − 1.25 H and a rounded
/// root at d3 = D1 − H/6. Only <see cref="ThreadTable"/> makes threads, so every thread is one of a published series.
/// </remarks>
public sealed record ScrewThread
{
    internal ScrewThread(string designation, ThreadSeries series, double diameter_mm, double pitch_mm)
    {
        (Designation, Series, Diameter_mm, Pitch_mm) = (designation, series, diameter_mm, pitch_mm);
    }

    /// <summary>As it is written: M8x1.25, 3/8-16 UNC.</summary>
    public string Designation { get; }
    public ThreadSeries Series { get; }
    public bool IsMetric => Series is ThreadSeries.IsoCoarse or ThreadSeries.IsoFine;
    /// <summary>Nominal (major) diameter d.</summary>
    public double Diameter_mm { get; }
    public double Pitch_mm { get; }
    /// <summary>Height H of the sharp triangle.</summary>
    public double TriangleHeight_mm => Math.Sqrt(3) / 2 * Pitch_mm;
    /// <summary>d2 = D2.</summary>
    public double PitchDiameter_mm => Diameter_mm - 0.75 * TriangleHeight_mm;
    /// <summary>D1, of the nut or tapped hole.</summary>
    public double MinorDiameter_mm => Diameter_mm - 1.25 * TriangleHeight_mm;
    /// <summary>d3, at the root of the bolt.</summary>
    public double RootDiameter_mm => MinorDiameter_mm - TriangleHeight_mm / 6;
    /// <summary>The diameter of a plain bar as strong in tension: ISO 898-1 for metric, ASME B1.1 for Unified.</summary>
    public double StressDiameter_mm => IsMetric ? (PitchDiameter_mm + RootDiameter_mm) / 2 : Diameter_mm - 0.9743 * Pitch_mm;
    public double StressArea_mm2 => Math.PI / 4 * StressDiameter_mm * StressDiameter_mm;

    public override string ToString() => Designation;

    internal static string Text(double figure) => figure.ToString("0.####", CultureInfo.InvariantCulture);
}
