using System.Text.Json;
using Lastoff.App.Device;

namespace Lastoff.App.Words;

/// <summary>
/// Says English words in the person's language. The English is the key, so that code reads as the screen does;
/// <c>wwwroot/words/de.json</c> gives each in German, with <c>{0}</c> where something is put in. What a language does not have stays English.
/// </summary>
/// <remarks>One person looks at a page at a time, so the language is the program's, as the platform's own culture is.</remarks>
public static class Speech
{
    public const string English = "en";

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
        var words = new Dictionary<string, string>();
        if (language != English && Languages.ContainsKey(language))
        {
            try
            {
                words = JsonSerializer.Deserialize(await server.GetStringAsync($"words/{language}.json"), AppJson.Default.DictionaryStringString)!;
            }
            catch (Exception e) when (e is HttpRequestException or TaskCanceledException or JsonException)
            {
                language = English;
            }
        }

        (s_words, Language) = (words, words.Count == 0 ? English : language);
        s_sentences = [];
        s_patterns = [.. words.Keys.Where(Pattern.HasHole).Select(key => new Pattern(key)).OrderByDescending(pattern => pattern.Told)];
        DecimalMark = Language == "de" ? "," : ".";
    }

    /// <summary>Says words that are written in the code, or a sentence that was put together elsewhere: then by the pattern it follows.</summary>
    public static string Say(string english) =>
        s_words.Count == 0 || english.Length == 0 ? english
        : s_words.TryGetValue(english, out var said) || s_sentences.TryGetValue(english, out said) ? said
        : s_sentences[english] = ByPattern(english);

    /// <summary>Says a sentence with something put into it: <c>Say($"{open} still open")</c> is found as <c>{0} still open</c>.</summary>
    public static string Say(Saying saying) => saying.In(s_words);

    private static string ByPattern(string sentence)
    {
        foreach (var pattern in s_patterns)
        {
            if (pattern.Read(sentence) is { } parts)
            {
                return Saying.Fill(s_words[pattern.English], parts);
            }
        }

        return sentence;
    }
}
