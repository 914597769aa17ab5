namespace Lastoff.Core.Languages;

/// <summary>A language that there are words for.</summary>
/// <param name="Code">By ISO 639-1, as browsers name it: "de".</param>
/// <param name="Name">As it calls itself.</param>
/// <param name="DecimalMark">The mark between whole and part of a number.</param>
public sealed record Language(string Code, string Name, string DecimalMark)
{
    /// <summary>Nouns begin with a capital wherever they stand.</summary>
    public bool HasCapitalNouns { get; init; }

    public static Language English { get; } = new("en", "English", ".");

    public static IReadOnlyList<Language> All { get; } = [English, new("de", "Deutsch", ",") { HasCapitalNouns = true }];

    /// <summary>Null when there are no words for it.</summary>
    public static Language? Of(string? code) => All.FirstOrDefault(language => language.Code == code);
}
