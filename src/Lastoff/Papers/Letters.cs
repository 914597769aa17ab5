using System.Globalization;
using System.Text;

namespace Lastoff.Papers;

/// <summary>Letters that belong together: same font, same direction, no place to break a line within.</summary>
/// <param name="Level">Even runs left to right, odd right to left, as in Unicode Standard Annex #9.</param>
/// <param name="MayBreakAfter">A line may end here.</param>
internal sealed record Letters(string Text, Typeface Face, int Level, bool MayBreakAfter);

/// <summary>Cuts a line of text into letters to set.</summary>
/// <remarks>
/// Directions are those of Unicode Standard Annex #9 for text without embeddings, of which the shown text has none: rules P2, P3, W2, W4, W7, N0, N1, N2, I1 and I2.
/// </remarks>
internal static class LetterCutter
{
    /// <summary>Stands for a letter that no font here has a shape for.</summary>
    public const string Unknown = "□";

    private const string Brackets = "()[]{}«»";

    private enum Way { Left, Right, Number, Separator, Neutral }

    /// <param name="baseLevel">1 for a line that begins with Hebrew or Arabic, else 0.</param>
    public static List<Letters> Cut(string line, Typeface face, out int baseLevel)
    {
        var letters = new List<(string Text, Typeface Face, Way Way)>();
        for (var at = 0; at < line.Length;)
        {
            var length = StringInfo.GetNextTextElementLength(line, at);
            if (Found(line.Substring(at, length), face) is { Text.Length: > 0 } found)
            {
                letters.Add(found);
            }

            at += length;
        }

        var ways = letters.Select(letter => letter.Way).ToArray();
        baseLevel = ways.FirstOrDefault(way => way is Way.Left or Way.Right) == Way.Right ? 1 : 0;
        var levels = Levels(ways, [.. letters.Select(letter => letter.Text)], baseLevel);
        var cut = new List<Letters>();
        var run = new StringBuilder();
        for (var i = 0; i < letters.Count; i++)
        {
            run.Append(letters[i].Text);
            var breaks = IsBreak(letters, i);
            if (breaks || i + 1 == letters.Count || letters[i + 1].Face != letters[i].Face || levels[i + 1] != levels[i])
            {
                cut.Add(new Letters(run.ToString(), letters[i].Face, levels[i], breaks));
                run.Clear();
            }
        }

        return cut;
    }

    /// <summary>What is shown for a letter with all its marks: as it is, its first sign alone, or a box; nothing for one that only says how others are shown.</summary>
    private static (string Text, Typeface Face, Way Way) Found(string letter, Typeface face)
    {
        // Variation selectors and joiners choose among shapes that are not here.
        var runes = letter.EnumerateRunes().Where(rune => rune.Value is not (>= 0xFE00 and <= 0xFE0F or 0x200D or >= 0x1F3FB and <= 0x1F3FF) || letter.Length == rune.Utf16SequenceLength).ToList();
        if (runes.Count == 0)
        {
            return ("", face, Way.Neutral);
        }

        var way = WayOf(runes[0]);
        foreach (var candidate in Typeface.Others.Prepend(face))
        {
            if (runes.All(candidate.Has))
            {
                return (string.Concat(runes), candidate, way);
            }
        }

        return Typeface.Others.Prepend(face).FirstOrDefault(candidate => candidate.Has(runes[0])) is { } partly
            ? (runes[0].ToString(), partly, way)
            : Rune.GetUnicodeCategory(runes[0]) is UnicodeCategory.Format ? ("", face, Way.Neutral)
            : (Unknown, Typeface.Symbols, way);
    }

    private static Way WayOf(Rune rune) => rune.Value switch
    {
        >= 0x0660 and <= 0x0669 or >= 0x06F0 and <= 0x06F9 => Way.Number,
        >= 0x0590 and <= 0x08FF or >= 0xFB1D and <= 0xFDFF or >= 0xFE70 and <= 0xFEFE or >= 0x10800 and <= 0x10FFF or >= 0x1E800 and <= 0x1EFFF or 0x200F => Way.Right,
        0x200E => Way.Left,
        '.' or ',' or ':' or '/' => Way.Separator,
        _ when Rune.IsDigit(rune) => Way.Number,
        _ when Rune.IsLetter(rune) => Way.Left,
        _ => Way.Neutral,
    };

    private static int[] Levels(Way[] ways, string[] texts, int baseLevel)
    {
        var strong = baseLevel == 1 ? Way.Right : Way.Left;
        var resolved = new Way[ways.Length];
        var before = strong;
        for (var i = 0; i < ways.Length; i++)
        {
            // A separator between two digits is part of the number (W4).
            var way = ways[i] == Way.Separator && i > 0 && i + 1 < ways.Length && ways[i - 1] == Way.Number && ways[i + 1] == Way.Number ? Way.Number : ways[i];
            before = way is Way.Left or Way.Right ? way : before;
            // A number among letters that run to the right runs with them (W7).
            resolved[i] = way == Way.Number && before == Way.Left ? Way.Left : way;
        }

        Pair(resolved, texts, strong);
        for (var i = 0; i < resolved.Length; i++)
        {
            if (resolved[i] is Way.Neutral or Way.Separator)
            {
                var end = i;
                while (end < resolved.Length && resolved[end] is Way.Neutral or Way.Separator)
                {
                    end++;
                }

                // Numbers count as running to the left here (N1); between unlike neighbours, the line decides (N2).
                var (left, right) = (i == 0 ? strong : Side(resolved[i - 1]), end == resolved.Length ? strong : Side(resolved[end]));
                Array.Fill(resolved, left == right ? left : strong, i, end - i);
                i = end - 1;
            }
        }

        return [.. resolved.Select(way => (way, baseLevel) switch
        {
            (Way.Left, 0) => 0,
            (Way.Right, _) => 1,
            _ => 2,
        })];
    }

    /// <summary>A number counts as running to the left.</summary>
    private static Way Side(Way way) => way == Way.Number ? Way.Right : way;

    /// <summary>Brackets run as the line does when anything between them does, else as what is between and before them (N0).</summary>
    private static void Pair(Way[] ways, string[] texts, Way strong)
    {
        foreach (var (open, close) in Pairs(texts))
        {
            var between = ways[(open + 1)..close].Select(Side).Where(way => way is Way.Left or Way.Right).ToList();
            if (between.Count > 0)
            {
                var before = ways[..open].Select(Side).LastOrDefault(way => way is Way.Left or Way.Right, strong);
                ways[open] = ways[close] = between.Contains(strong) ? strong : before;
            }
        }
    }

    /// <summary>In the order in which they open.</summary>
    private static IEnumerable<(int Open, int Close)> Pairs(string[] texts)
    {
        var (open, pairs) = (new Stack<(int At, int Kind)>(), new List<(int Open, int Close)>());
        foreach (var (at, text) in texts.Index())
        {
            var kind = text.Length == 1 ? Brackets.IndexOf(text, StringComparison.Ordinal) : -1;
            if (kind >= 0 && kind % 2 == 0)
            {
                open.Push((at, kind));
            }
            else if (kind > 0 && open.Any(begun => begun.Kind == kind - 1))
            {
                // What was begun within and not ended is no pair.
                while (open.Pop() is var begun)
                {
                    if (begun.Kind == kind - 1)
                    {
                        pairs.Add((begun.At, at));
                        break;
                    }
                }
            }
        }

        return pairs.Order();
    }

    /// <summary>After spaces, hyphens and slashes, and between signs that are words of their own (a small part of Unicode Standard Annex #14).</summary>
    private static bool IsBreak(List<(string Text, Typeface Face, Way Way)> letters, int i)
    {
        if (i + 1 >= letters.Count || letters[i + 1].Text is " " or "%")
        {
            return false;
        }

        return letters[i].Text switch
        {
            " " or "\u200B" => true,
            "-" or "–" or "/" => i > 0 && letters[i - 1].Text != " " && letters[i + 1].Way != Way.Number,
            Unknown => true,
            _ => false,
        };
    }
}
