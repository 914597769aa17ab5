using System.Globalization;
using System.Text;

namespace Lastoff.Tests.Program;

/// <summary>A string as it is written in a source, with what stands in its holes.</summary>
/// <param name="Text">What it says, each hole as <c>{0}</c>, <c>{1}</c> in their order.</param>
/// <param name="Holes">The code in each hole.</param>
/// <param name="End">Behind its closing quote.</param>
internal sealed record SourceLiteral(string Text, IReadOnlyList<string> Holes, int End)
{
    public static bool BeginsAt(string source, int at) => Opening(source, at) is not null;

    /// <exception cref="FormatException">It is never closed.</exception>
    public static SourceLiteral Read(string source, int at)
    {
        var opening = Opening(source, at)!;
        var (isVerbatim, hasHoles) = (opening.Contains('@', StringComparison.Ordinal), opening.Contains('$', StringComparison.Ordinal));
        var (text, holes) = (new StringBuilder(), new List<string>());
        for (at += opening.Length; at < source.Length; at++)
        {
            var (letter, next) = (source[at], at + 1 < source.Length ? source[at + 1] : '\0');
            switch (letter)
            {
                case '"' when isVerbatim && next == '"':
                case '{' or '}' when hasHoles && next == letter:
                    text.Append(letter);
                    at++;
                    break;
                case '"':
                    return new SourceLiteral(text.ToString(), holes, at + 1);
                case '\\' when !isVerbatim && next == 'u':
                    text.Append((char)int.Parse(source.AsSpan(at + 2, 4), NumberStyles.HexNumber, CultureInfo.InvariantCulture));
                    at += 5;
                    break;
                case '\\' when !isVerbatim:
                    text.Append(next switch { 'n' => '\n', 'r' => '\r', 't' => '\t', '0' => '\0', _ => next });
                    at++;
                    break;
                case '{' when hasHoles:
                    text.Append(CultureInfo.InvariantCulture, $"{{{holes.Count}}}");
                    var end = EndOfBrackets(source, at);
                    holes.Add(source[(at + 1)..(end - 1)]);
                    at = end - 1;
                    break;
                default:
                    text.Append(letter);
                    break;
            }
        }

        throw new FormatException($"A string is never closed: {source[Math.Max(0, source.Length - 60)..]}");
    }

    /// <summary>Behind the bracket that closes the one at a place, whatever strings, comments and other brackets stand between.</summary>
    public static int EndOfBrackets(string source, int at)
    {
        var open = 0;
        while (at < source.Length)
        {
            if (EndOfWhole(source, at) is { } behind)
            {
                at = behind;
                continue;
            }

            open += source[at] switch { '(' or '[' or '{' => 1, ')' or ']' or '}' => -1, _ => 0 };
            at++;
            if (open == 0)
            {
                return at;
            }
        }

        throw new FormatException("A bracket is never closed.");
    }

    /// <summary>Behind the string, letter in quotes or comment that begins at a place; null when none does.</summary>
    public static int? EndOfWhole(string source, int at) =>
        BeginsAt(source, at) ? Read(source, at).End
        : Behind(source, at, "//", "\n") ?? Behind(source, at, "/*", "*/") ?? Behind(source, at, "@*", "*@")
            ?? (source[at] == '\'' ? source.IndexOf('\'', source[at + 1] == '\\' ? at + 3 : at + 2) + 1 : null);

    /// <summary>Behind what begins with one mark and ends with another; null when it does not begin here.</summary>
    public static int? Behind(string source, int at, string begin, string end) =>
        string.CompareOrdinal(source, at, begin, 0, begin.Length) != 0 ? null
        : source.IndexOf(end, at + begin.Length, StringComparison.Ordinal) is >= 0 and var found ? found + end.Length
        : source.Length;

    private static string? Opening(string source, int at) =>
        new[] { "\"", "$\"", "@\"", "$@\"", "@$\"" }.FirstOrDefault(opening => string.CompareOrdinal(source, at, opening, 0, opening.Length) == 0);
}
