namespace Lastoff.Core.Maps;

/// <summary>Reads an amount of fluid with its unit.</summary>
public static class Volume
{
    // Exact: the US gallon is 231 cubic inches of 25.4 mm (the pint an eighth of it, the quart a quarter); the imperial gallon is 4.54609 L
    // (Units of Measurement Regulations 1995, United Kingdom).
    private static readonly Dictionary<string, double> Litres = new(StringComparer.OrdinalIgnoreCase)
    {
        ["L"] = 1,
        ["mL"] = 0.001,
        ["US gal"] = 3.785411784,
        ["US qt"] = 3.785411784 / 4,
        ["US pt"] = 3.785411784 / 8,
        ["imp gal"] = 4.54609,
        ["imp pt"] = 4.54609 / 8,
    };

    /// <summary>The units it knows, as they are written.</summary>
    public static IReadOnlyCollection<string> Units => Litres.Keys;

    /// <summary>Reads "2.4 L", "600 mL", "1.5 US gal".</summary>
    public static bool TryParseLitres(string text, out double litres)
    {
        litres = 0;
        if (!NumberWithUnit.TrySplit(text, out var value, out var unit) || !Litres.TryGetValue(unit, out var factor))
        {
            return false;
        }

        litres = value * factor;
        return true;
    }
}
