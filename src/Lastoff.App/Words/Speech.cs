using System.Text.Json;
using System.Text.RegularExpressions;
using Lastoff.App.Device;

namespace Lastoff.App.Words;

/// <summary>
/// Says English words in the person's language. The English is the key, so that code reads as the screen does;
/// <c>wwwroot/words/de.json</c> gives each in German, with <c>{0}</c> where something is put in, and <c>de.core.json</c> what the core says, which is found again by its pattern:
/// kept apart, so that a short pattern of the app is not found in the words of a map. What a language does not have stays English.
/// </summary>
/// <remarks>One person looks at a page at a time, so the language is the program's, as the platform's own culture is.</remarks>
public static partial class Speech
{
    public const string English = "en";

    private const string Link = ", ";

    /// <summary>Every language there is a file for, by its own name.</summary>
    public static IReadOnlyDictionary<string, string> Languages { get; } = new Dictionary<string, string> { [English] = "English", ["de"] = "Deutsch" };

    private static Dictionary<string, string> s_words = [];
    private static Dictionary<string, string> s_sentences = [];
    private static IReadOnlyList<Pattern> s_patterns = [];

    /// <summary>Of <see cref="Languages"/>.</summary>
    public static string Language { get; private set; } = English;

    /// <summary>The mark between whole and part of a number.</summary>
    public static string DecimalMark { get; private set; } = ".";

    /// <summary>Takes a language; a file that cannot be had leaves English.</summary>
    public static async Task TakeAsync(string language, HttpClient server)
    {
        Dictionary<string, string> words = [];
        Dictionary<string, string> core = [];
        if (language != English && Languages.ContainsKey(language))
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
        foreach (var (english, said) in core)
        {
            words.TryAdd(english, said);
        }

        (s_words, Language) = (words, words.Count == 0 ? English : language);
        s_sentences = [];
        DecimalMark = Language == "de" ? "," : ".";

        async Task<Dictionary<string, string>> ReadAsync(string file) => JsonSerializer.Deserialize(await server.GetStringAsync(file), AppJson.Default.DictionaryStringString)!;
    }

    /// <summary>Says words that are written in the code, or a sentence that was put together elsewhere: then by the pattern it follows.</summary>
    public static string Say(string english) =>
        s_words.Count == 0 || english.Length == 0 ? english
        : s_sentences.TryGetValue(english, out var said) ? said
        : s_sentences[english] = Find(english) ?? (english.Contains(Link, StringComparison.Ordinal) ? string.Join(Link, english.Split(Link).Select(Say)) : english);

    /// <summary>Says a sentence with something put into it: <c>Say($"{open} still open")</c> is found as <c>{0} still open</c>.</summary>
    public static string Say(Saying saying) => saying.In(s_words);

    /// <summary>Null when it is not known.</summary>
    private static string? Find(string sentence)
    {
        if (s_words.TryGetValue(sentence, out var said))
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
                return Saying.Fill(s_words[pattern.English], [.. parts.Select((part, hole) => pattern.IsQuoted(hole) ? part : Say(part))]);
            }
        }

        // The core puts its own sentences behind one another, and behind what a map or a person says in their own words.
        var sentences = Boundary().Split(sentence);
        return sentences.Length > 1 ? string.Join(' ', sentences.Select(Say)) : null;
    }

    [GeneratedRegex(@"(?<=\.) (?=[\p{Lu}“])")]
    private static partial Regex Boundary();
}
