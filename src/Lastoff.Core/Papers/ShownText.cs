using System.Globalization;
using System.Text;

namespace Lastoff.Core.Papers;

/// <summary>What of a text is shown. People paste anything into a name; no letter of it may turn round or hide what stands beside it.</summary>
public static class ShownText
{
    /// <summary>
    /// Without control characters, and without the marks that overrule the direction of writing (Unicode Standard Annex #9, sections 2.1 to 2.4):
    /// Hebrew and Arabic need none of them. Line breaks become “\n”; half a surrogate pair becomes U+FFFD.
    /// </summary>
    public static string Of(string text)
    {
        var shown = new StringBuilder(text.Length);
        foreach (var rune in text.ReplaceLineEndings("\n").EnumerateRunes())
        {
            if (rune.Value is '\n')
            {
                shown.Append('\n');
            }
            else if (rune.Value is '\t')
            {
                shown.Append(' ');
            }
            else if (!IsHidden(rune))
            {
                shown.Append(rune.ToString());
            }
        }

        return shown.ToString();
    }

    private static bool IsHidden(Rune rune) =>
        Rune.GetUnicodeCategory(rune) is UnicodeCategory.Control
        || rune.Value is >= 0x202A and <= 0x202E or >= 0x2066 and <= 0x2069 or 0xFEFF or >= 0xFFF9 and <= 0xFFFB or >= 0xE0000 and <= 0xE007F
        // Not characters at all, and no XML may hold them.
        || (rune.Value & 0xFFFE) == 0xFFFE;
}
