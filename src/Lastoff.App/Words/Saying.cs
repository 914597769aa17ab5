using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using Lastoff.Core.Languages;

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
        return Pattern.Fill(words.GetValueOrDefault(pattern, pattern), _parts);
    }
}
