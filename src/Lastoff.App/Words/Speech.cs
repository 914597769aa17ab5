using System.Text.Json;
using Lastoff.App.Device;
using Lastoff.App.Exchange;
using Lastoff.Core.Languages;
using Lastoff.Core.Papers;

namespace Lastoff.App.Words;

/// <summary>
/// Says English words in the person's language. The English is the key, so that code reads as the screen does;
/// <c>wwwroot/words/de.json</c> gives each in German, with <c>{0}</c> where something is put in, and <c>de.core.json</c> what the core and its papers say, which is found again by its pattern:
/// kept apart, so that no word of the app is found in a sentence of the core, where names stand. What a language does not have stays English.
/// </summary>
/// <remarks>One person looks at a page at a time, so the language is the program's, as the platform's own culture is.</remarks>
public static class Speech
{
    private static Dictionary<string, string> s_words = [];

    /// <summary>For what the core says.</summary>
    public static Tongue Tongue { get; private set; } = Tongue.English;

    public static string Language => Tongue.Language.Code;

    /// <summary>The mark between whole and part of a number.</summary>
    public static string DecimalMark => Tongue.Language.DecimalMark;

    /// <summary>Takes a language; a file that cannot be had leaves English.</summary>
    public static async Task TakeAsync(string code, Server server)
    {
        (Dictionary<string, string> Words, Tongue Core) taken = ([], Tongue.English);
        if (Core.Languages.Language.Of(code) is { } language && language != Core.Languages.Language.English)
        {
            try
            {
                taken = (await ReadAsync(server, $"words/{code}.json"), new Tongue(language, await ReadAsync(server, $"words/{code}.core.json")));
            }
            catch (Exception e) when (e is ServerException or JsonException)
            {
                // English it stays.
            }
        }

        (s_words, Tongue) = taken;
    }

    /// <summary>Says words that are written in the code, or a sentence that was put together elsewhere: then by the pattern it follows.</summary>
    public static string Say(string english) => Unbroken.Of(s_words.TryGetValue(english, out var said) ? said : Tongue.Say(english));

    /// <summary>Says a sentence with something put into it: <c>Say($"{open} still open")</c> is found as <c>{0} still open</c>.</summary>
    public static string Say(Saying saying) => Unbroken.Of(saying.In(s_words));

    private static Task<Dictionary<string, string>> ReadAsync(Server server, string file) =>
        server.ReadAsync(file, AppJson.Default.DictionaryStringString);
}
