using System.Collections.Concurrent;
using System.Text.Json;
using Lastoff.Core.Languages;

namespace Lastoff.Papers;

/// <summary>The languages that papers are written in, by the same words that the app has for what the core says.</summary>
internal static class Tongues
{
    private static readonly ConcurrentDictionary<Language, Tongue> Read = new() { [Language.English] = Tongue.English };

    /// <summary>All of them, for whoever asked for another.</summary>
    public static string All { get; } = string.Join(", ", Language.All.Select(language => language.Code));

    /// <param name="code">"de"; null for English.</param>
    /// <returns>Null when there are no words for it.</returns>
    public static Tongue? Of(string? code) => code is null ? Tongue.English : Language.Of(code) is { } language ? Read.GetOrAdd(language, Words) : null;

    /// <summary>The first that a browser asks for and there are words for; English when there is none.</summary>
    public static Tongue Asked(HttpRequest request) => request.GetTypedHeaders().AcceptLanguage
        .Where(asked => asked.Quality is null or > 0).OrderByDescending(asked => asked.Quality ?? 1)
        .Select(asked => Language.Of(asked.Value.Value?.Split('-')[0].ToLowerInvariant())).FirstOrDefault(language => language is not null) is { } found ? Of(found.Code)! : Tongue.English;

    private static Tongue Words(Language language)
    {
        using var words = typeof(Tongues).Assembly.GetManifestResourceStream($"words/{language.Code}.core.json")!;
        return new Tongue(language, JsonSerializer.Deserialize<Dictionary<string, string>>(words)!);
    }
}
