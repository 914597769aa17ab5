using System.Globalization;

namespace Lastoff.Core.Joints;

/// <summary>A tightening torque. Kept in newton metres; shown in the mechanic's unit.</summary>
public readonly record struct Torque
{
    private const double NewtonMetresPerInchPound = Measure.NewtonsPerPoundForce * Measure.MillimetresPerInch / 1000;

    private Torque(double newtonMetres) => NewtonMetres = newtonMetres;

    public static Torque Zero => default;

    public double NewtonMetres { get; }
    public double InchPounds => NewtonMetres / NewtonMetresPerInchPound;
    public double FootPounds => NewtonMetres / (12 * NewtonMetresPerInchPound);
    public double KilogramForceMetres => NewtonMetres / Measure.NewtonsPerKilogramForce;

    /// <exception cref="ArgumentOutOfRangeException">The value is negative, infinite or not a number.</exception>
    public static Torque FromNewtonMetres(double value) => new(Checked(value));

    /// <inheritdoc cref="FromNewtonMetres"/>
    public static Torque FromInchPounds(double value) => new(Checked(value) * NewtonMetresPerInchPound);

    /// <inheritdoc cref="FromNewtonMetres"/>
    public static Torque FromFootPounds(double value) => new(Checked(value) * 12 * NewtonMetresPerInchPound);

    /// <inheritdoc cref="FromNewtonMetres"/>
    public static Torque FromKilogramForceMetres(double value) => new(Checked(value) * Measure.NewtonsPerKilogramForce);

    /// <summary>Reads a number with its unit: "12 N·m", "12Nm", "110 in·lb", "35 ft-lb", "2.5 kgf·m".</summary>
    public static bool TryParse(string text, out Torque torque)
    {
        var read = Measure.Torque_Nm.TryRead(text, out var value) && value >= 0;
        torque = read ? new Torque(value) : Zero;
        return read;
    }

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{NewtonMetres:0.##} N·m");

    private static double Checked(double value) => double.IsFinite(value) && value >= 0
        ? value
        : throw new ArgumentOutOfRangeException(nameof(value), value, "A torque is a finite number, zero or more.");
}
