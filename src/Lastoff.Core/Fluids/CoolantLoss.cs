using System.Globalization;

namespace Lastoff.Core.Fluids;

/// <summary>
/// What a hole that lets gas through would let out of hot coolant: slow (viscous) flow through a narrow passage, where the volume of liquid goes with the
/// pressure difference and that of gas with the difference of the squares. An order of magnitude: a wide hole passes more gas for its coolant, and the
/// finest are stopped by surface tension.
/// </summary>
public readonly record struct CoolantLoss(double CubicMetresPerSecond)
{
    // Air at 20 °C (from memory, standard tables: 18.1 µPa·s); half-and-half ethylene glycol at 90 °C (ASHRAE's table: 0.82 mPa·s), 100 kPa at the cap.
    private const double AirViscosity = 18.1e-6;
    private const double HotCoolantViscosity = 0.82e-3;
    private const double WorkingPressure = 100e3;

    // 20 drops to the millilitre, as pharmacists count (common practice, no source).
    private const double DropCubicMetres = 0.05e-6;

    public double DropsPerDay => CubicMetresPerSecond * 86_400 / DropCubicMetres;
    public double LitresPerMonth => CubicMetresPerSecond * 86_400 * 30 * 1000;

    /// <param name="throughput">The gas leak, Pa·m3/s.</param>
    /// <param name="high">The absolute pressure on the side the gas comes from.</param>
    /// <param name="low">And where it goes.</param>
    public static CoolantLoss Of(double throughput, Pressure high, Pressure low)
    {
        var halfOfSquares = ((high.Pascals * high.Pascals) - (low.Pascals * low.Pascals)) / 2;
        return new CoolantLoss(halfOfSquares <= 0 ? 0 : Math.Max(0, throughput) * AirViscosity / halfOfSquares * WorkingPressure / HotCoolantViscosity);
    }

    public override string ToString() => DropsPerDay switch
    {
        < 1 => "less than a drop a day",
        < 2000 => string.Create(CultureInfo.InvariantCulture, $"about {Rounded(DropsPerDay):0} drops a day ({Rounded(LitresPerMonth):0.###} L a month)"),
        _ => string.Create(CultureInfo.InvariantCulture, $"about {Rounded(LitresPerMonth):0.#} L a month ({Rounded(DropsPerDay / 1440):0.#} drops a minute)"),
    };

    // Two figures: more would say more than is known.
    private static double Rounded(double value)
    {
        var scale = Math.Pow(10, Math.Floor(Math.Log10(value)) - 1);
        return Math.Round(value / scale) * scale;
    }
}
