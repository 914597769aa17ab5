using System.Text;
using System.Text.RegularExpressions;

namespace Lastoff.Core.Languages;

/// <summary>A sentence of the core with holes, to be found again in one that was put together there: the core speaks English alone, since what it says is kept and exported.</summary>
public sealed partial class Pattern
{
    private const char AsWritten = '=';

    private readonly string[] _told;

    public Pattern(string english)
    {
        English = english;
        _told = Hole().Split(english);
        Told = _told.Sum(part => part.Length);
    }

    public string English { get; }

    /// <summary>How much of it is said whatever goes into the holes: the more, the surer.</summary>
    public int Told { get; }

    public static bool HasHole(string english) => Hole().IsMatch(english.AsSpan());

    /// <summary>Whether what stands in a hole is a name, which no language says otherwise: between quotation marks, or in front of a word with a colon between (“{0}: undone”).</summary>
    public bool IsName(int hole) => IsQuoted(hole) || (hole == 0 && _told[0].Length == 0 && _told[1] is [':', ' ', var letter, ..] && char.IsLetter(letter));

    private bool IsQuoted(int hole) => _told[hole].EndsWith('“') || _told[hole].EndsWith('\'');

    /// <summary>What stands in the holes, in their order; null when the sentence is another.</summary>
    public IReadOnlyList<string>? Read(string sentence)
    {
        if (!sentence.StartsWith(_told[0], StringComparison.Ordinal) || !sentence.EndsWith(_told[^1], StringComparison.Ordinal))
        {
            return null;
        }

        var parts = new List<string>();
        var at = _told[0].Length;
        for (var i = 1; i < _told.Length; i++)
        {
            var end = i == _told.Length - 1 ? sentence.Length - _told[i].Length : sentence.IndexOf(_told[i], Math.Min(at + 1, sentence.Length), StringComparison.Ordinal);
            if (end <= at)
            {
                return null;
            }

            // A name between quotation marks ends where they do.
            if (IsQuoted(i - 1) && sentence.AsSpan(at, end - at).ContainsAny('”', '“'))
            {
                return null;
            }

            parts.Add(sentence[at..end]);
            at = end + _told[i].Length;
        }

        return parts;
    }

    /// <summary>Whether a language says with <c>{0=}</c> that what goes into a hole are words of a person's own, and stay.</summary>
    public static bool IsAsWritten(string said, int hole) => said.Contains($"{{{hole}{AsWritten}}}", StringComparison.Ordinal);

    /// <summary>Puts each part where a pattern names it; a language may name them in another order.</summary>
    public static string Fill(string pattern, IReadOnlyList<string> parts)
    {
        var filled = new StringBuilder(pattern.Length + 16);
        for (var i = 0; i < pattern.Length; i++)
        {
            if (pattern[i] == '{' && pattern.IndexOf('}', i) is > 0 and var end && int.TryParse(pattern.AsSpan(i + 1, end - i - 1).TrimEnd(AsWritten), out var hole) && hole < parts.Count)
            {
                filled.Append(parts[hole]);
                i = end;
            }
            else
            {
                filled.Append(pattern[i]);
            }
        }

        return filled.ToString();
    }

    [GeneratedRegex(@"\{\d+\}")]
    private static partial Regex Hole();
}
