using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

namespace Lastoff.App.Words;

/// <summary>A sentence with holes, as it is written in the code: its pattern in English and what goes into each hole.</summary>
[InterpolatedStringHandler]
public readonly struct Saying(int literalLength, int formattedCount)
{
    private readonly StringBuilder _pattern = new(literalLength + 3 * formattedCount);
    private readonly List<string> _parts = new(formattedCount);

    public void AppendLiteral(string text) => _pattern.Append(text);

    public void AppendFormatted<T>(T part, string? format = null)
    {
        _pattern.Append('{').Append(_parts.Count).Append('}');
        _parts.Add(part is IFormattable number ? number.ToString(format, CultureInfo.InvariantCulture) : part?.ToString() ?? "");
    }

    internal string In(IReadOnlyDictionary<string, string> words)
    {
        var pattern = _pattern.ToString();
        return Fill(words.GetValueOrDefault(pattern, pattern), _parts);
    }

    /// <summary>Puts each part where the pattern names it; a language may name them in another order.</summary>
    internal static string Fill(string pattern, IReadOnlyList<string> parts)
    {
        var filled = new StringBuilder(pattern.Length + 16);
        for (var i = 0; i < pattern.Length; i++)
        {
            if (pattern[i] == '{' && pattern.IndexOf('}', i) is > 0 and var end && int.TryParse(pattern.AsSpan(i + 1, end - i - 1), out var hole) && hole < parts.Count)
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
}
