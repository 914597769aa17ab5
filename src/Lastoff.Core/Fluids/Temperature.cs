using System.Globalization;

namespace Lastoff.Core.Fluids;

/// <summary>A temperature. Kept in kelvins; shown in the mechanic's unit.</summary>
public readonly record struct Temperature : IComparable<Temperature>
{
    // Exact: the Celsius scale starts at 273.15 K; 1 °F is 5/9 K and 32 °F is 0 °C.
    private const double ZeroCelsiusKelvins = 273.15;

    private Temperature(double kelvins) => Kelvins = kelvins;

    public double Kelvins { get; }
    public double Celsius => Kelvins - ZeroCelsiusKelvins;
    public double Fahrenheit => (Celsius * 9 / 5) + 32;

    /// <exception cref="ArgumentOutOfRangeException">The value is below absolute zero, infinite or not a number.</exception>
    public static Temperature FromKelvins(double value) => double.IsFinite(value) && value >= 0
        ? new(value)
        : throw new ArgumentOutOfRangeException(nameof(value), value, "A temperature is a finite number, absolute zero or more.");

    /// <inheritdoc cref="FromKelvins"/>
    public static Temperature FromCelsius(double value) => FromKelvins(value + ZeroCelsiusKelvins);

    /// <inheritdoc cref="FromKelvins"/>
    public static Temperature FromFahrenheit(double value) => FromCelsius((value - 32) * 5 / 9);

    public static bool operator <(Temperature left, Temperature right) => left.Kelvins < right.Kelvins;

    public static bool operator >(Temperature left, Temperature right) => left.Kelvins > right.Kelvins;

    public static bool operator <=(Temperature left, Temperature right) => left.Kelvins <= right.Kelvins;

    public static bool operator >=(Temperature left, Temperature right) => left.Kelvins >= right.Kelvins;

    /// <summary>Reads "20C", "20 °C", "90degC", "195 degF", "-12 °C", "300 K".</summary>
    public static bool TryParse(string text, out Temperature temperature)
    {
        temperature = default;
        if (!NumberWithUnit.TrySplit(text, out var number, out var unit))
        {
            return false;
        }

        double? kelvins = unit.Replace("deg", "", StringComparison.OrdinalIgnoreCase).Replace("°", "").Trim() switch
        {
            "C" or "c" => number + ZeroCelsiusKelvins,
            "F" or "f" => ((number - 32) * 5 / 9) + ZeroCelsiusKelvins,
            "K" => number,
            _ => null,
        };
        if (kelvins is not >= 0)
        {
            return false;
        }

        temperature = new Temperature(kelvins.Value);
        return true;
    }

    public int CompareTo(Temperature other) => Kelvins.CompareTo(other.Kelvins);

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Celsius:0.#} °C");
}
