using System.Globalization;

namespace Lastoff.Core.Planning;

/// <summary>Minutes as they are read: "2.5 min", "13 min", "1 h 05 min".</summary>
public static class MinuteWords
{
    public static string Of(double minutes)
    {
        // Rounded first, so that 3 h 59.7 min is 4 h 00 min and not 3 h 60 min.
        var whole = (int)Math.Round(minutes);
        return minutes < 9.95 ? string.Create(CultureInfo.InvariantCulture, $"{minutes:0.#} min")
            : whole < 60 ? string.Create(CultureInfo.InvariantCulture, $"{whole} min")
            : string.Create(CultureInfo.InvariantCulture, $"{whole / 60} h {whole % 60:00} min");
    }
}
