using System.Globalization;
using System.Text;

namespace Lastoff.Core.Maps;

/// <summary>What can be said about a map file before any of it is understood: its size and its characters.</summary>
internal static class MapText
{
    private const int MostBytes = 4_000_000;

    public static bool IsReadable(string text, FaultList faults)
    {
        // A character is at least one byte: the cheap test first, so that a huge text costs nothing.
        if (text.Length > MostBytes || Encoding.UTF8.GetByteCount(text) > MostBytes)
        {
            var size = (text.Length / 1e6).ToString("0.0", CultureInfo.InvariantCulture);
            faults.AddToFile(1, $"The file holds {size} MB and a map at most 4 MB; is it the right file? If so, describe one area of the machine per map.");
            return false;
        }

        var line = 1;
        for (var i = 0; i < text.Length; i++)
        {
            var character = text[i];
            if (character == '\n' || (character == '\r' && (i + 1 == text.Length || text[i + 1] != '\n')))
            {
                line++;
            }
            else if (character == '\uFFFD')
            {
                faults.AddToFile(line, "A character on this line could not be read; save the file as UTF-8 and write the character again.");
            }
            else if (IsInvisible(character, isFirst: i == 0))
            {
                var code = ((int)character).ToString("X4", CultureInfo.InvariantCulture);
                faults.AddToFile(line, $"There is an invisible character (U+{code}) on this line that no map needs; delete it.");
            }
        }

        return faults.Count == 0;
    }

    /// <summary>Control characters, among them the NUL at which a parser would stop early, and breaks that count as a line for some and not for others.</summary>
    private static bool IsInvisible(char character, bool isFirst) =>
        (char.IsControl(character) && character is not ('\t' or '\r' or '\n'))
        || character is '\u2028' or '\u2029'
        || (character == '\uFEFF' && !isFirst);
}
