namespace Lastoff.Core.Joints;

/// <summary>Reads a number with its unit, as "80Nm", "400 mm", "15 kN" or "90deg".</summary>
public sealed class Measure
{
    // Exact: 1 in = 0.0254 m, 1 lb = 0.45359237 kg (international yard and pound, 1959), g = 9.80665 m/s2 (3rd CGPM, 1901).
    internal const double MillimetresPerInch = 25.4;
    internal const double NewtonsPerKilogramForce = 9.80665;
    internal const double NewtonsPerPoundForce = 0.45359237 * NewtonsPerKilogramForce;
    internal const double MegapascalsPerPsi = NewtonsPerPoundForce / (MillimetresPerInch * MillimetresPerInch);

    private readonly Dictionary<string, double> _factors;

    private Measure(string what, string example, params (string Unit, double Factor)[] units)
    {
        (What, Example) = (what, example);
        _factors = units.ToDictionary(u => u.Unit, u => u.Factor);
    }

    public static Measure Length_mm { get; } = new("a length", "12mm, 5cm or 0.5in",
        ("mm", 1), ("cm", 10), ("m", 1000), ("in", MillimetresPerInch), ("inch", MillimetresPerInch), ("\"", MillimetresPerInch));

    public static Measure Force_N { get; } = new("a force", "15kN, 800N or 3000lbf",
        ("n", 1), ("kn", 1000), ("lbf", NewtonsPerPoundForce), ("lb", NewtonsPerPoundForce), ("kgf", NewtonsPerKilogramForce));

    public static Measure Stress_MPa { get; } = new("a strength", "240MPa or 35ksi",
        ("mpa", 1), ("n/mm2", 1), ("n/mm²", 1), ("gpa", 1000), ("psi", MegapascalsPerPsi), ("ksi", 1000 * MegapascalsPerPsi));

    public static Measure Angle_deg { get; } = new("an angle", "90deg", ("deg", 1), ("°", 1), ("degrees", 1));

    public static Measure Torque_Nm { get; } = new("a torque", "80N·m, 35ft·lb, 110in·lb or 2kgf·m",
        ("nm", 1),
        ("inlb", InchPound), ("inlbf", InchPound), ("lbin", InchPound), ("lbfin", InchPound),
        ("ftlb", 12 * InchPound), ("ftlbf", 12 * InchPound), ("lbft", 12 * InchPound), ("lbfft", 12 * InchPound),
        ("kgfm", NewtonsPerKilogramForce), ("kgm", NewtonsPerKilogramForce));

    private static double InchPound => NewtonsPerPoundForce * MillimetresPerInch / 1000;

    /// <summary>The quantity, for a sentence.</summary>
    public string What { get; }

    /// <summary>How it may be written, for a sentence.</summary>
    public string Example { get; }

    /// <summary>False when the number or its unit is missing, not finite, or not known.</summary>
    public bool TryRead(string text, out double value)
    {
        value = 0;
        if (!NumberWithUnit.TrySplit(text, out var number, out var unit)
            || !_factors.TryGetValue(Plain(unit), out var factor)
            || !double.IsFinite(number * factor))
        {
            return false;
        }

        value = number * factor;
        return true;
    }

    // N·m, N.m, N-m and N m are all written for the same unit.
    private static string Plain(string unit) =>
        string.Concat(unit.Where(c => !char.IsWhiteSpace(c) && c is not ('·' or '⋅' or '-' or '.' or '*'))).ToLowerInvariant();
}
