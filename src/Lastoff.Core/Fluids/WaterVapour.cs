namespace Lastoff.Core.Fluids;

/// <summary>Where water boils: IAPWS Industrial Formulation 1997, region 4 (equation 30), 273.15 K to 647.096 K.</summary>
public static class WaterVapour
{
    private const double LowestKelvins = 273.15;
    private const double HighestKelvins = 647.096;

    private static readonly double[] N =
    [
        0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7,
        0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
    ];

    /// <summary>The pressure at which water boils at a temperature. Below 0 °C, the value at 0 °C: a little high, so on the safe side.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is above water's critical point.</exception>
    public static Pressure SaturationPressure(Temperature temperature)
    {
        if (temperature.Kelvins > HighestKelvins)
        {
            throw new ArgumentOutOfRangeException(nameof(temperature), temperature, "Water has no boiling pressure above 373.9 °C.");
        }

        var kelvins = Math.Max(temperature.Kelvins, LowestKelvins);
        var theta = kelvins + (N[8] / (kelvins - N[9]));
        var a = (theta * theta) + (N[0] * theta) + N[1];
        var b = (N[2] * theta * theta) + (N[3] * theta) + N[4];
        var c = (N[5] * theta * theta) + (N[6] * theta) + N[7];
        return Pressure.FromPascals(1e6 * Math.Pow(2 * c / (-b + Math.Sqrt((b * b) - (4 * a * c))), 4));
    }

    /// <summary>The temperature at which water boils under a pressure.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The pressure is below the triple point's or above the critical point's.</exception>
    public static Temperature BoilingPoint(Pressure pressure)
    {
        double low = LowestKelvins, high = HighestKelvins;
        if (pressure < SaturationPressure(Temperature.FromKelvins(low)) || pressure > SaturationPressure(Temperature.FromKelvins(high)))
        {
            throw new ArgumentOutOfRangeException(nameof(pressure), pressure, "Water boils between 0.611 kPa and 22.06 MPa.");
        }

        // 60 halvings of a 374 K interval end below the last digit of a double.
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = SaturationPressure(Temperature.FromKelvins(middle)) < pressure ? (middle, high) : (low, middle);
        }

        return Temperature.FromKelvins(high);
    }
}
