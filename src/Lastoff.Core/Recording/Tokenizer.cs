using System.Globalization;

namespace Lastoff.Core.Recording;

/// <summary>Cuts a line into words, numbers and signs. Letters and figures are parted, so that “m8” and “m eight” are the same to whoever reads on.</summary>
internal static class Tokenizer
{
    // No size, count or volume a mechanic says has more figures.
    private const int MostFigures = 9;
    private const int LongestShort = 2;

    private static readonly (char Sign, double Value)[] Vulgar = [('½', 0.5), ('¼', 0.25), ('¾', 0.75), ('⅛', 0.125), ('⅜', 0.375), ('⅝', 0.625), ('⅞', 0.875)];

    public static List<Token> Cut(string line)
    {
        var tokens = new List<Token>();
        for (var at = 0; at < line.Length;)
        {
            if (IsBlank(line, at))
            {
                at++;
                continue;
            }

            var (end, number, isFraction) = One(line, at);
            tokens.Add(new Token(line[at..end].ToLowerInvariant().Replace('’', '\''), at, end - at, number, isFraction, at > 0 && tokens.Count > 0 && tokens[^1].End == at));
            at = end;
        }

        return tokens;
    }

    // A hyphen between letters joins words that are written apart just as often, and so does one in T-30.
    private static bool IsBlank(string line, int at) => char.IsWhiteSpace(line[at])
        || line[at] is '-' && at > 0 && at + 1 < line.Length && (char.IsLetterOrDigit(line[at - 1]) && char.IsLetter(line[at + 1])
            || char.IsAsciiDigit(line[at + 1]) && char.IsLetter(line[at - 1]) && (at == 1 || !char.IsLetterOrDigit(line[at - 2])));

    // N/S, f/bumper, w/pump: a word shortened to a letter or two. A stroke between whole words parts them.
    private static bool IsShortened(string line, int start, int at)
    {
        if (line[at] != '/')
        {
            return false;
        }

        var after = at + 1;
        while (after < line.Length && char.IsLetter(line[after]) && after <= at + LongestShort + 1)
        {
            after++;
        }

        return at - start <= LongestShort || line[at - 2] == '/' || after - at - 1 <= LongestShort;
    }

    private static (int End, double? Number, bool IsFraction) One(string line, int at)
    {
        if (Array.Find(Vulgar, v => v.Sign == line[at]) is { Value: > 0 } vulgar)
        {
            return (at + 1, vulgar.Value, true);
        }

        if (char.IsAsciiDigit(line[at]) || line[at] == '.' && at + 1 < line.Length && char.IsAsciiDigit(line[at + 1]))
        {
            return Figures(line, at);
        }

        var end = at + 1;
        if (char.IsLetter(line[at]))
        {
            // 2xT30, 4xM8.
            if (line[at] is 'x' or 'X' && at > 0 && char.IsAsciiDigit(line[at - 1]) && end + 1 < line.Length && char.IsLetter(line[end]) && char.IsAsciiDigit(line[end + 1]))
            {
                return (end, null, false);
            }

            // B+: a terminal, and no “and”.
            if (end < line.Length && line[end] == '+' && (end + 1 == line.Length || !char.IsLetterOrDigit(line[end + 1])))
            {
                return (end + 1, null, false);
            }

            while (end < line.Length && (char.IsLetter(line[end]) || end + 1 < line.Length && char.IsLetter(line[end + 1]) && (line[end] is '\'' or '’' || IsShortened(line, at, end))))
            {
                end++;
            }
        }
        else if (line[at] is '\'' or '’' && at > 0 && char.IsAsciiDigit(line[at - 1]) && end < line.Length && char.IsLetter(line[end]))
        {
            // 13's, T30's.
            end++;
        }
        else if (char.IsHighSurrogate(line[at]) && end < line.Length)
        {
            end++;
        }

        return (end, null, false);
    }

    private static (int End, double? Number, bool IsFraction) Figures(string line, int at)
    {
        var end = EndOfFigures(line, at);
        if (end < line.Length && line[end] == '/' && EndOfFigures(line, end + 1) is var below && below > end + 1)
        {
            return Value(line[at..end]) is { } upper && Value(line[(end + 1)..below]) is > 0 and { } lower ? (below, upper / lower, true) : (below, null, false);
        }

        // 1-1/8 and 1 1/8 are one number; 3/8-16 is a thread and is read later.
        if (end < line.Length && line[end] is '-' or ' ' && EndOfFigures(line, end + 1) is var middle && middle > end + 1 && middle < line.Length && line[middle] == '/'
            && EndOfFigures(line, middle + 1) is var last && last > middle + 1
            && Value(line[at..end]) is { } whole && Value(line[(end + 1)..middle]) is { } above && Value(line[(middle + 1)..last]) is > 0 and { } under && above < under)
        {
            // “two 3/8 bolts” is a count and a size: only what is made, an inch and something, is taken together.
            return whole <= 2 && line[end] == '-' || whole == 1 ? (last, whole + above / under, true) : (end, whole, false);
        }

        if (end < line.Length && line[end] == '.' && EndOfFigures(line, end + 1) is var decimals && decimals > end + 1)
        {
            end = decimals;
        }

        return (end, Value(line[at..end]), false);
    }

    private static int EndOfFigures(string line, int at)
    {
        var end = at;
        if (end < line.Length && line[end] == '.' && end + 1 < line.Length && char.IsAsciiDigit(line[end + 1]))
        {
            end++;
        }

        while (end < line.Length && char.IsAsciiDigit(line[end]))
        {
            end++;
        }

        return end;
    }

    private static double? Value(string figures) => figures.Length <= MostFigures
        && double.TryParse(figures, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) ? value : null;
}
