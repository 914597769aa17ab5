using System.Globalization;

namespace Lastoff.Core.Fluids;

/// <summary>A leak of gas. Kept as the amount of gas, which needs no reference; every other way of saying it names a temperature.</summary>
public readonly record struct LeakRate
{
    // Exact since 2019: the product of the Avogadro and Boltzmann constants.
    private const double MolarGasConstant = 8.31446261815324;

    // A standard cubic centimetre is counted at 0 °C and 101 325 Pa.
    private const double MolesPerStandardCubicCentimetre = 101_325e-6 / (MolarGasConstant * 273.15);

    private LeakRate(double molesPerSecond) => MolesPerSecond = molesPerSecond;

    public double MolesPerSecond { get; }

    /// <summary>Standard cubic centimetres a minute, at 0 °C and 101.325 kPa.</summary>
    public double Sccm => MolesPerSecond * 60 / MolesPerStandardCubicCentimetre;

    /// <exception cref="ArgumentOutOfRangeException">The value is infinite or not a number.</exception>
    public static LeakRate FromMolesPerSecond(double value) => double.IsFinite(value)
        ? new(value)
        : throw new ArgumentOutOfRangeException(nameof(value), value, "A leak is a finite number.");

    /// <summary>From pressure times volume a second, at a temperature.</summary>
    /// <inheritdoc cref="FromMolesPerSecond"/>
    public static LeakRate FromThroughput(double pascalCubicMetresPerSecond, Temperature at) =>
        FromMolesPerSecond(pascalCubicMetresPerSecond / (MolarGasConstant * at.Kelvins));

    /// <inheritdoc cref="FromMolesPerSecond"/>
    public static LeakRate FromSccm(double value) => FromMolesPerSecond(value * MolesPerStandardCubicCentimetre / 60);

    /// <summary>Pa·m3/s at a temperature.</summary>
    public double ThroughputAt(Temperature temperature) => MolesPerSecond * MolarGasConstant * temperature.Kelvins;

    /// <summary>Reads "1e-4 Pa·m3/s", "1e-3mbar·L/s", "5 sccm"; the first two are taken at <paramref name="at"/>.</summary>
    public static bool TryParse(string text, Temperature at, out LeakRate leak)
    {
        leak = default;
        if (!NumberWithUnit.TrySplit(text, out var number, out var unit) || number < 0)
        {
            return false;
        }

        var plain = unit.Replace('³', '3').ToLowerInvariant();
        foreach (var joiner in new[] { "·", "*", " ", ".", "^" })
        {
            plain = plain.Replace(joiner, "");
        }

        LeakRate? read = plain switch
        {
            "pam3/s" => FromThroughput(number, at),
            "mbarl/s" => FromThroughput(number / 10, at),
            "sccm" => FromSccm(number),
            "mol/s" => FromMolesPerSecond(number),
            _ => null,
        };
        leak = read ?? default;
        return read is not null;
    }

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Sccm:0.##} sccm");
}
