using System.Globalization;
using System.Text;

namespace Lastoff.Core.Maps;

/// <summary>What can be said about a map file before any of it is understood: its size and its characters.</summary>
internal static class MapText
{
    private const int MostBytes = 4_000_000;

    public static bool IsReadable(string text, FaultList faults)
    {
        var bytes = Encoding.UTF8.GetByteCount(text);
        if (bytes > MostBytes)
        {
            var size = (bytes / 1e6).ToString("0.0##", CultureInfo.InvariantCulture);
            faults.AddToFile(1, $"The file holds {size} MB and a map at most 4 MB; is it the right file? If so, describe one area of the machine per map.");
            return false;
        }

        var (line, lastFaulty) = (1, 0);
        for (var i = 0; i < text.Length; i++)
        {
            var character = text[i];
            if (character == '\n' || (character == '\r' && (i + 1 == text.Length || text[i + 1] != '\n')))
            {
                line++;
            }
            else if (line != lastFaulty && Complaint(character, isFirst: i == 0) is { } sentence)
            {
                faults.AddToFile(line, sentence);
                lastFaulty = line;
            }
        }

        return faults.Count == 0;
    }

    private static string? Complaint(char character, bool isFirst)
    {
        if (character == '\uFFFD')
        {
            return "A character on this line could not be read; save the file as UTF-8 and write the character again.";
        }

        return IsInvisible(character, isFirst)
            ? $"There is an invisible character (U+{((int)character).ToString("X4", CultureInfo.InvariantCulture)}) on this line that no map needs; delete it."
            : null;
    }

    /// <summary>Control characters, among them the NUL at which a parser would stop early, and breaks that count as a line for some and not for others.</summary>
    private static bool IsInvisible(char character, bool isFirst) =>
        (char.IsControl(character) && character is not ('\t' or '\r' or '\n'))
        || character is '\u2028' or '\u2029'
        || (character == '\uFEFF' && !isFirst);
}
