using System.Globalization;

namespace Lastoff.Core.Fluids;

/// <summary>An amount of pressure, never below zero. Whether it counts from a perfect vacuum or from the weather is said by the name it is kept under.</summary>
public readonly record struct Pressure : IComparable<Pressure>
{
    // Exact: 1 lbf is 0.45359237 kg at 9.80665 m/s2, 1 in is 0.0254 m. Conventional: mercury of 13595.1 kg/m3 (0 °C) under 9.80665 m/s2.
    private const double PascalsPerPsi = 0.45359237 * 9.80665 / (0.0254 * 0.0254);
    private const double PascalsPerMetreOfMercury = 13595.1 * 9.80665;
    private const double PascalsPerInchOfMercury = 0.0254 * PascalsPerMetreOfMercury;

    private static readonly Dictionary<string, double> PascalsPer = new(StringComparer.OrdinalIgnoreCase)
    {
        ["Pa"] = 1,
        ["hPa"] = 100,
        ["mbar"] = 100,
        ["kPa"] = 1000,
        ["bar"] = 100_000,
        ["psi"] = PascalsPerPsi,
        ["inHg"] = PascalsPerInchOfMercury,
        ["mmHg"] = PascalsPerMetreOfMercury / 1000,
        ["cmHg"] = PascalsPerMetreOfMercury / 100,
        ["atm"] = 101_325,
    };

    private Pressure(double pascals) => Pascals = pascals;

    public static Pressure Zero => default;

    /// <summary>The units it reads, as they are written.</summary>
    public static IReadOnlyCollection<string> Units => PascalsPer.Keys;

    public double Pascals { get; }
    public double Kilopascals => Pascals / 1000;
    public double InchesOfMercury => Pascals / PascalsPerInchOfMercury;

    /// <exception cref="ArgumentOutOfRangeException">The value is negative, infinite or not a number.</exception>
    public static Pressure FromPascals(double value) => double.IsFinite(value) && value >= 0
        ? new(value)
        : throw new ArgumentOutOfRangeException(nameof(value), value, "A pressure is a finite number, zero or more.");

    /// <inheritdoc cref="FromPascals"/>
    public static Pressure FromKilopascals(double value) => FromPascals(value * 1000);

    /// <inheritdoc cref="FromPascals"/>
    public static Pressure FromInchesOfMercury(double value) => FromPascals(value * PascalsPerInchOfMercury);

    public static Pressure operator +(Pressure left, Pressure right) => new(left.Pascals + right.Pascals);

    public static bool operator <(Pressure left, Pressure right) => left.Pascals < right.Pascals;

    public static bool operator >(Pressure left, Pressure right) => left.Pascals > right.Pascals;

    public static bool operator <=(Pressure left, Pressure right) => left.Pascals <= right.Pascals;

    public static bool operator >=(Pressure left, Pressure right) => left.Pascals >= right.Pascals;

    /// <summary>How many pascals one of a unit is; nothing for a unit it does not know.</summary>
    public static double? PascalsIn(string unit) => PascalsPer.TryGetValue(unit, out var pascals) ? pascals : null;

    /// <summary>Reads "103 kPa", "25inHg", "15 psi".</summary>
    public static bool TryParse(string text, out Pressure pressure)
    {
        pressure = Zero;
        if (!NumberWithUnit.TrySplit(text, out var number, out var unit) || number < 0 || PascalsIn(unit) is not { } pascals)
        {
            return false;
        }

        pressure = new Pressure(number * pascals);
        return double.IsFinite(pressure.Pascals);
    }

    public int CompareTo(Pressure other) => Pascals.CompareTo(other.Pascals);

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Kilopascals:0.0#} kPa");
}
