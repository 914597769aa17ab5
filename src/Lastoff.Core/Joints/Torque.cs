using System.Globalization;

namespace Lastoff.Core.Joints;

/// <summary>A tightening torque. Kept in newton metres; shown in the mechanic's unit.</summary>
public readonly record struct Torque
{
    // Exact: 1 in = 0.0254 m, 1 lb = 0.45359237 kg (international yard and pound, 1959), g = 9.80665 m/s2 (3rd CGPM, 1901).
    private const double NewtonsPerKilogramForce = 9.80665;
    private const double NewtonsPerPoundForce = 0.45359237 * NewtonsPerKilogramForce;
    private const double NewtonMetresPerInchPound = 0.0254 * NewtonsPerPoundForce;

    private Torque(double newtonMetres) => NewtonMetres = newtonMetres;

    public static Torque Zero => default;

    public double NewtonMetres { get; }
    public double InchPounds => NewtonMetres / NewtonMetresPerInchPound;
    public double FootPounds => NewtonMetres / (12 * NewtonMetresPerInchPound);
    public double KilogramForceMetres => NewtonMetres / NewtonsPerKilogramForce;

    /// <exception cref="ArgumentOutOfRangeException">The value is negative, infinite or not a number.</exception>
    public static Torque FromNewtonMetres(double value) => new(Checked(value));

    /// <inheritdoc cref="FromNewtonMetres"/>
    public static Torque FromInchPounds(double value) => new(Checked(value) * NewtonMetresPerInchPound);

    /// <inheritdoc cref="FromNewtonMetres"/>
    public static Torque FromFootPounds(double value) => new(Checked(value) * 12 * NewtonMetresPerInchPound);

    /// <inheritdoc cref="FromNewtonMetres"/>
    public static Torque FromKilogramForceMetres(double value) => new(Checked(value) * NewtonsPerKilogramForce);

    /// <summary>Reads a number with its unit: "12 N·m", "12Nm", "110 in·lb", "35 ft-lb", "2.5 kgf·m".</summary>
    public static bool TryParse(string text, out Torque torque)
    {
        torque = Zero;
        var (number, unit) = SplitUnit(text);
        if (!double.TryParse(number, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || !double.IsFinite(value) || value < 0)
        {
            return false;
        }

        Torque? read = unit.Replace("·", "").Replace("-", "").Replace(".", "").Replace(" ", "").ToLowerInvariant() switch
        {
            "nm" => FromNewtonMetres(value),
            "inlb" or "inlbf" or "lbin" or "lbfin" => FromInchPounds(value),
            "ftlb" or "ftlbf" or "lbft" or "lbfft" => FromFootPounds(value),
            "kgfm" or "kgm" => FromKilogramForceMetres(value),
            _ => null,
        };
        torque = read ?? Zero;
        return read is not null;
    }

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{NewtonMetres:0.##} N·m");

    private static (string Number, string Unit) SplitUnit(string text)
    {
        var trimmed = text.Trim();
        var end = 0;
        while (end < trimmed.Length && (char.IsAsciiDigit(trimmed[end]) || trimmed[end] is '.' or '-' or '+'))
        {
            end++;
        }

        return (trimmed[..end], trimmed[end..].Trim());
    }

    private static double Checked(double value) => double.IsFinite(value) && value >= 0
        ? value
        : throw new ArgumentOutOfRangeException(nameof(value), value, "A torque is a finite number, zero or more.");
}
