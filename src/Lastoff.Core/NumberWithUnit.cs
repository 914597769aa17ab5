using System.Globalization;

namespace Lastoff.Core;

/// <summary>Splits "25inHg", "6.8 L", "1e-4Pa·m3/s", "-12 °C" into number and unit.</summary>
public static class NumberWithUnit
{
    public static bool TrySplit(string text, out double number, out string unit)
    {
        var trimmed = text.Trim().Replace('−', '-');
        var end = EndOfNumber(trimmed);
        unit = trimmed[end..].Trim();
        return double.TryParse(trimmed[..end], NumberStyles.Float, CultureInfo.InvariantCulture, out number) && double.IsFinite(number);
    }

    private static int EndOfNumber(string text)
    {
        var at = text is ['-' or '+', ..] ? 1 : 0;
        while (at < text.Length && (char.IsAsciiDigit(text[at]) || text[at] == '.'))
        {
            at++;
        }

        // An exponent only counts with its digits: the e of "5 e" is a unit.
        if (at < text.Length && text[at] is 'e' or 'E')
        {
            var digits = at + 1 < text.Length && text[at + 1] is '-' or '+' ? at + 2 : at + 1;
            if (digits < text.Length && char.IsAsciiDigit(text[digits]))
            {
                at = digits;
                while (at < text.Length && char.IsAsciiDigit(text[at]))
                {
                    at++;
                }
            }
        }

        return at;
    }
}
