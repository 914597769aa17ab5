using System.Collections.Frozen;

namespace Lastoff.Core.Papers;

/// <summary>The papers of a job.</summary>
public enum PaperKind { Labels, Standing, Record, Handover, Estimate, Invoice }

public static class PaperKinds
{
    private static readonly FrozenDictionary<string, PaperKind> ByWord = Enum.GetValues<PaperKind>().ToFrozenDictionary(Word);

    /// <summary>As it stands in addresses and commands: "handover".</summary>
    public static string Word(this PaperKind kind) => kind.ToString().ToLowerInvariant();

    public static bool TryRead(string word, out PaperKind kind) => ByWord.TryGetValue(word, out kind);

    /// <summary>All of them, for whoever asked for another.</summary>
    public static string All { get; } = string.Join(", ", Enum.GetValues<PaperKind>().Select(Word));
}
