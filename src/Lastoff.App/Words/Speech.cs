using System.Text.Json;
using System.Text.RegularExpressions;
using Lastoff.App.Device;
using Lastoff.Core.Papers;

namespace Lastoff.App.Words;

/// <summary>
/// Says English words in the person's language. The English is the key, so that code reads as the screen does;
/// <c>wwwroot/words/de.json</c> gives each in German, with <c>{0}</c> where something is put in, and <c>de.core.json</c> what the core says, which is found again by its pattern:
/// kept apart, so that no word of the app is found in a sentence of the core, where names stand. What a language does not have stays English.
/// </summary>
/// <remarks>One person looks at a page at a time, so the language is the program's, as the platform's own culture is.</remarks>
public static partial class Speech
{
    public const string English = "en";

    private const string Link = ", ";

    /// <summary>More sentences than this are not remembered: times and figures in them are always other ones.</summary>
    private const int MostRemembered = 2000;

    /// <summary>Every language there are files for: its own name, and its mark between whole and part of a number.</summary>
    private static readonly Dictionary<string, (string Name, string DecimalMark)> s_languages = new() { [English] = ("English", "."), ["de"] = ("Deutsch", ",") };

    private static Dictionary<string, string> s_words = [];
    private static Dictionary<string, string> s_core = [];
    private static Dictionary<string, string> s_sentences = [];
    private static IReadOnlyList<Pattern> s_patterns = [];

    /// <summary>Each by its own name.</summary>
    public static IEnumerable<(string Language, string Name)> Languages => s_languages.Select(pair => (pair.Key, pair.Value.Name));

    public static string Language { get; private set; } = English;

    /// <summary>The mark between whole and part of a number.</summary>
    public static string DecimalMark => s_languages[Language].DecimalMark;

    /// <summary>Takes a language; a file that cannot be had leaves English.</summary>
    public static async Task TakeAsync(string language, HttpClient server)
    {
        Dictionary<string, string> words = [];
        Dictionary<string, string> core = [];
        if (language != English && s_languages.ContainsKey(language))
        {
            try
            {
                (words, core) = (await ReadAsync($"words/{language}.json"), await ReadAsync($"words/{language}.core.json"));
            }
            catch (Exception e) when (e is HttpRequestException or TaskCanceledException or JsonException)
            {
                (words, core) = ([], []);
            }
        }

        s_patterns = [.. core.Keys.Where(Pattern.HasHole).Select(key => new Pattern(key)).OrderByDescending(pattern => pattern.Told)];
        (s_words, s_core, Language) = (words, core, words.Count == 0 ? English : language);
        s_sentences = [];

        async Task<Dictionary<string, string>> ReadAsync(string file) => JsonSerializer.Deserialize(await server.GetStringAsync(file), AppJson.Default.DictionaryStringString)!;
    }

    /// <summary>Says words that are written in the code, or a sentence that was put together elsewhere: then by the pattern it follows.</summary>
    public static string Say(string english) =>
        Unbroken.Of(s_words.Count == 0 ? english : s_words.TryGetValue(english, out var said) ? said : OfCore(english));

    /// <summary>Says a sentence with something put into it: <c>Say($"{open} still open")</c> is found as <c>{0} still open</c>.</summary>
    public static string Say(Saying saying) => Unbroken.Of(saying.In(s_words));

    private static string OfCore(string english)
    {
        if (s_sentences.TryGetValue(english, out var said))
        {
            return said;
        }

        if (s_sentences.Count >= MostRemembered)
        {
            s_sentences.Clear();
        }

        return s_sentences[english] = Find(english) ?? (english.Contains(Link, StringComparison.Ordinal) ? string.Join(Link, english.Split(Link).Select(OfCore)) : english);
    }

    /// <summary>Null when the core's words do not have it.</summary>
    private static string? Find(string sentence)
    {
        if (s_core.TryGetValue(sentence, out var said))
        {
            return said;
        }

        // A reason is a chain of links, each of which is known by itself.
        if (sentence.Contains(Link, StringComparison.Ordinal) && sentence.Split(Link).Select(Find).ToList() is var links && links.All(link => link is not null))
        {
            return string.Join(Link, links);
        }

        foreach (var pattern in s_patterns)
        {
            // What stands in a hole is never more than one sentence: else the pattern has begun in one and ended in another.
            if (pattern.Read(sentence) is { } parts && !parts.Any(part => Boundary().IsMatch(part)))
            {
                return Saying.Fill(s_core[pattern.English], [.. parts.Select((part, hole) => pattern.IsName(hole) ? part : OfCore(part))]);
            }
        }

        // The core puts its own sentences behind one another, and behind what a map or a person says in their own words.
        var sentences = Boundary().Split(sentence);
        return sentences.Length > 1 ? string.Join(' ', sentences.Select(OfCore)) : null;
    }

    [GeneratedRegex(@"(?<=\.) (?=[\p{Lu}“])")]
    private static partial Regex Boundary();
}
