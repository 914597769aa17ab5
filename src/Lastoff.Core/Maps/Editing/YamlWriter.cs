using System.Globalization;
using System.Text;

namespace Lastoff.Core.Maps.Editing;

/// <summary>Writes a value as YAML on one line, so that it reads back as what it is in block and in flow style alike.</summary>
internal static class YamlWriter
{
    // What starts something else than a text.
    private const string Indicators = "-?:,[]{}#&*!|>'\"%@`~=<";

    public static string Inline(YamlNode node) => node switch
    {
        YamlScalar scalar => Scalar(scalar),
        YamlList list => $"[{string.Join(", ", list.Items.Select(Inline))}]",
        YamlMapping mapping => $"{{{string.Join(", ", mapping.Entries.Select(Entry))}}}",
        _ => throw new ArgumentException("There is no other sort of value.", nameof(node)),
    };

    public static string Entry(YamlEntry entry) => $"{Scalar(new YamlScalar(0, entry.Key, true))}: {Inline(entry.Value)}";

    /// <summary>One line for each field, to stand below each other.</summary>
    public static IEnumerable<string> Lines(YamlMapping mapping) => mapping.Entries.Select(Entry);

    private static string Scalar(YamlScalar scalar)
    {
        var text = scalar.Text;
        if (scalar.IsPlain ? IsPlain(text) || IsNumber(text) : IsPlain(text) && !IsOtherThanText(text))
        {
            return text;
        }

        return text.Contains('\'') || Characters(text).Any(c => !c.IsPrintable) ? Escaped(text) : $"'{text}'";
    }

    private static bool IsPlain(string text) =>
        text.Length > 0
        && !Indicators.Contains(text[0]) && text[0] != ' ' && text[^1] is not (' ' or ':')
        && !text.StartsWith("...", StringComparison.Ordinal)
        && text.AsSpan().IndexOfAny(",[]{}") < 0 && !text.Contains(": ", StringComparison.Ordinal) && !text.Contains(" #", StringComparison.Ordinal)
        && Characters(text).All(c => c.IsPrintable);

    /// <summary>Without quotes it would be taken for a number, a flag or nothing.</summary>
    private static bool IsOtherThanText(string text) =>
        text.ToLowerInvariant() is "true" or "false" or "null" || IsNumber(text)
        || text.TrimStart('+').ToLowerInvariant() is ".inf" or ".nan" || text.StartsWith("0x", StringComparison.Ordinal) || text.StartsWith("0o", StringComparison.Ordinal);

    private static bool IsNumber(string text) => double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out _);

    private static string Escaped(string text)
    {
        var written = new StringBuilder("\"");
        foreach (var (character, isPrintable) in Characters(text))
        {
            written.Append(character switch
            {
                "\"" => "\\\"",
                "\\" => @"\\",
                "\n" => "\\n",
                "\r" => "\\r",
                "\t" => "\\t",
                _ when isPrintable => character,
                _ => $"\\u{((int)character[0]).ToString("X4", CultureInfo.InvariantCulture)}",
            });
        }

        return written.Append('"').ToString();
    }

    /// <summary>The characters, one beyond the first 65,536 as its pair; printable by YAML 1.2.2 (section 5.1), and of those none that a map's text may not hold.</summary>
    private static IEnumerable<(string Character, bool IsPrintable)> Characters(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            if (char.IsSurrogatePair(text, i))
            {
                yield return (text.Substring(i++, 2), true);
            }
            else
            {
                yield return (text[i].ToString(), text[i] is ((>= ' ' and <= '~') or (>= '\u00A0' and <= '\uD7FF') or (>= '\uE000' and < '\uFFFD')) and not ('\u2028' or '\u2029' or '\uFEFF'));
            }
        }
    }
}
