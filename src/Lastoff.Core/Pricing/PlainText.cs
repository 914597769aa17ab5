using System.Globalization;

namespace Lastoff.Core.Pricing;

/// <summary>Text that looks like what it is: any script and any sign, and nothing that reorders or hides the figures beside it.</summary>
/// <remarks>Such text is refused, not stripped: a price is kept as it was typed, and what was agreed is what was seen.</remarks>
internal static class PlainText
{
    public const int Longest = 500;

    /// <summary>Why the text cannot stand on a paper, as the end of a sentence that begins with its name; null when it can.</summary>
    public static string? Fault(string text)
    {
        if (text.Length > Longest)
        {
            return $"is {text.Length} characters long, and {Longest} is the most";
        }

        for (var i = 0; i < text.Length; i++)
        {
            var letter = text[i];
            if (char.IsSurrogate(letter) && !(char.IsHighSurrogate(letter) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1])))
            {
                return "holds half a character";
            }

            i += char.IsSurrogate(letter) ? 1 : 0;
            if (char.GetUnicodeCategory(letter) is UnicodeCategory.Control or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator)
            {
                return $"holds a control character (U+{(int)letter:X4}); leave it out";
            }

            // Embeddings, overrides and isolates (Unicode Standard Annex 9, 2.1 to 2.5). Marks such as U+200F and joiners such as U+200D hide nothing.
            if (letter is >= '\u202A' and <= '\u202E' or >= '\u2066' and <= '\u2069')
            {
                return $"holds a character that turns the reading direction round (U+{(int)letter:X4}); leave it out";
            }
        }

        return null;
    }
}
