using System.Globalization;

namespace Lastoff.Core.Recording;

/// <summary>Numbers as they stand on spanners: 3/8, 1 1/8, 13, 5.5.</summary>
internal static class Fraction
{
    private const double Near = 1e-9;

    /// <summary>Null when the text is not a finite number above zero.</summary>
    public static double? Read(string text)
    {
        var whole = 0.0;
        var rest = text;
        if (text.IndexOfAny([' ', '-']) is var gap and > 0 && text.Contains('/'))
        {
            if (!TryNumber(text[..gap], out whole))
            {
                return null;
            }

            rest = text[(gap + 1)..];
        }

        var parts = rest.Split('/');
        return parts.Length <= 2 && TryNumber(parts[0], out var upper) && TryNumber(parts.Length == 2 ? parts[1] : "1", out var lower)
            && lower > 0 && whole + upper / lower is var value && value > 0 && double.IsFinite(value) ? value : null;
    }

    /// <summary>As a fraction where it is one with a power of two below, else as a decimal number.</summary>
    public static string Text(double value, int finest)
    {
        for (var part = 1; part <= finest; part *= 2)
        {
            if (Math.Abs(value * part - Math.Round(value * part)) < Near && value < 1e6)
            {
                var upper = (long)Math.Round(value * part);
                var (whole, left) = (upper / part, upper % part);
                return left == 0 ? $"{whole}" : whole == 0 ? $"{left}/{part}" : $"{whole} {left}/{part}";
            }
        }

        return value.ToString("R", CultureInfo.InvariantCulture);
    }

    private static bool TryNumber(string text, out double number) =>
        double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out number) && double.IsFinite(number);
}
