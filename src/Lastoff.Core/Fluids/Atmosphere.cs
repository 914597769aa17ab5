namespace Lastoff.Core.Fluids;

/// <summary>The air's pressure at a height: the standard atmosphere, or the weather's.</summary>
public static class Atmosphere
{
    // ISO 2533 / ICAO standard atmosphere below 11 km, in geopotential height: 1013.25 hPa and 288.15 K at sea level, 6.5 K less for each km.
    // Heights on a map are geometric; below 4 km that is a difference of less than 0.06 % in pressure, far below any gauge here.
    private const double LowestMetres = -500;
    private const double HighestMetres = 11_000;
    private const double Exponent = 5.25588;

    public static Pressure SeaLevel { get; } = Pressure.FromPascals(101_325);

    /// <summary>A height the formula holds for.</summary>
    public static bool Covers(double altitudeMetres) => altitudeMetres is >= LowestMetres and <= HighestMetres;

    /// <summary>The standard atmosphere's absolute pressure at a height.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The height is below -500 m or above 11 000 m.</exception>
    public static Pressure Standard(double altitudeMetres) => At(altitudeMetres, SeaLevel);

    /// <summary>The pressure on the spot, when the weather report gives it reduced to sea level, as reports do.</summary>
    /// <inheritdoc cref="Standard"/>
    public static Pressure At(double altitudeMetres, Pressure reportedForSeaLevel) => Covers(altitudeMetres)
        ? Pressure.FromPascals(reportedForSeaLevel.Pascals * Math.Pow(1 - (0.0065 * altitudeMetres / 288.15), Exponent))
        : throw new ArgumentOutOfRangeException(nameof(altitudeMetres), altitudeMetres, "The standard atmosphere is used from -500 m to 11 000 m.");

    /// <summary>The pressure on the spot from what a person can tell: the height, and the weather report if there is one.</summary>
    /// <param name="reportedForSeaLevel">Null for a standard day.</param>
    public static Answer<Pressure> OnTheSpot(double altitudeMetres, Pressure? reportedForSeaLevel) =>
        !Covers(altitudeMetres) ? Answer.None<Pressure>("Altitudes from -500 m to 11 000 m are known; check the number and its unit.")
        : reportedForSeaLevel is { Kilopascals: not (>= 85 and <= 110) } ? Answer.None<Pressure>("The weather report's pressure is for sea level and lies between 850 and 1100 hPa; check the number and its unit.")
        : At(altitudeMetres, reportedForSeaLevel ?? SeaLevel);

    /// <summary>Reads "1500 m", "1.5km", "4900 ft".</summary>
    public static bool TryParseAltitude(string text, out double metres)
    {
        metres = 0;
        if (!NumberWithUnit.TrySplit(text, out var number, out var unit))
        {
            return false;
        }

        double? perUnit = unit switch
        {
            "m" => 1,
            "km" => 1000,
            "ft" => 0.3048,
            _ => null,
        };
        metres = number * (perUnit ?? 0);
        return perUnit is not null;
    }
}
