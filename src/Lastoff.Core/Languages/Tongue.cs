using System.Collections.Concurrent;
using System.Text.RegularExpressions;
using Lastoff.Core.Papers;

namespace Lastoff.Core.Languages;

/// <summary>Says what the core says in another language: each sentence is found again by the pattern it follows, part by part. What has no pattern stays English.</summary>
public sealed partial class Tongue
{
    private const string Link = ", ";

    /// <summary>More sentences than this are not remembered: times and figures in them are always other ones.</summary>
    private const int MostRemembered = 2000;

    private readonly IReadOnlyDictionary<string, string> _words;
    private readonly IReadOnlyList<Pattern> _patterns;
    private readonly ConcurrentDictionary<string, string> _said = [];

    /// <param name="words">What the core says, with <c>{0}</c> where something is put in, and how the language says it.</param>
    public Tongue(Language language, IReadOnlyDictionary<string, string> words)
    {
        Language = language;
        _words = words;
        _patterns = [.. words.Keys.Where(Pattern.HasHole).Select(key => new Pattern(key)).OrderByDescending(pattern => pattern.Told)];
    }

    /// <summary>Says everything as it is written.</summary>
    public static Tongue English { get; } = new(Language.English, new Dictionary<string, string>());

    public Language Language { get; }

    public string Say(string english)
    {
        if (_words.Count == 0)
        {
            return english;
        }

        if (_said.TryGetValue(english, out var said))
        {
            return said;
        }

        if (_said.Count >= MostRemembered)
        {
            _said.Clear();
        }

        return _said[english] = Marked(Find(english) ?? (Links(english) is { Count: > 1 } links ? string.Join(Link, links.Select(Say)) : english));
    }

    /// <summary>Line by line.</summary>
    public string SayLines(string english) => english.Contains('\n', StringComparison.Ordinal) ? string.Join('\n', english.Split('\n').Select(Say)) : Say(english);

    /// <summary>Figures without a unit, with the language's own mark between whole and part.</summary>
    public string SayFigure(string figure) => BareFigure().IsMatch(figure.AsSpan()) ? figure.Replace(".", Language.DecimalMark, StringComparison.Ordinal) : Say(figure);

    /// <summary>Null when there are no words for it.</summary>
    private string? Find(string sentence)
    {
        if (_words.TryGetValue(sentence, out var said))
        {
            return said;
        }

        // A reason is a chain of links, each of which is known by itself. That something stands before a colon says nothing.
        if (Links(sentence) is { Count: > 1 } links && links.Select(Find).ToList() is var known && known.Zip(links).All(pair => pair.First is not null && pair.First != pair.Second))
        {
            return string.Join(Link, known);
        }

        foreach (var pattern in _patterns)
        {
            // What stands in a hole is never more than one sentence: else the pattern has begun in one and ended in another.
            if (pattern.Read(sentence) is { } parts && !parts.Any(part => Boundary().IsMatch(part.AsSpan())))
            {
                said = _words[pattern.English];
                return Pattern.Fill(said, [.. parts.Select((part, hole) => pattern.IsName(hole) || Pattern.IsAsWritten(said, hole) ? part : Say(part))]);
            }
        }

        // The core puts its own sentences behind one another, and behind what a map or a person says in their own words.
        var sentences = Boundary().Split(sentence);
        return sentences.Length > 1 ? string.Join(' ', sentences.Select(Say))
            : sentence.EndsWith('.') && Find(sentence[..^1]) is { } unended ? unended + "."
            : null;
    }

    /// <summary>The links of a chain; a comma within a name between quotation marks parts nothing.</summary>
    private static IReadOnlyList<string> Links(string sentence)
    {
        var links = new List<string>();
        var start = 0;
        for (var at = sentence.IndexOf(Link, StringComparison.Ordinal); at >= 0; at = sentence.IndexOf(Link, at + 1, StringComparison.Ordinal))
        {
            if (sentence.AsSpan(start, at - start).Count('“') == sentence.AsSpan(start, at - start).Count('”'))
            {
                links.Add(sentence[start..at]);
                start = at + Link.Length;
            }
        }

        return [.. links, sentence[start..]];
    }

    private string Marked(string said) => Language.DecimalMark == "." ? said : Measured().Replace(said, _ => Language.DecimalMark);

    [GeneratedRegex(@"(?<=\.) (?=[\p{Lu}“])")]
    private static partial Regex Boundary();

    /// <summary>The point in a figure that a unit follows. “Class 8.8” has none, and stays.</summary>
    [GeneratedRegex(@"(?<=(?<![0-9.])[0-9]+)\.(?=[0-9]+[ \u00A0]" + Unbroken.Unit + ")")]
    private static partial Regex Measured();

    [GeneratedRegex(@"^[-−]?[0-9][0-9 ]*\.[0-9]+$")]
    private static partial Regex BareFigure();
}
