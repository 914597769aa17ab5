namespace Lastoff.Core.Papers;

/// <summary>The papers of a job.</summary>
public enum PaperKind { Labels, Standing, Record, Handover, Estimate, Invoice }

public static class PaperKinds
{
    private static readonly Dictionary<string, PaperKind> ByWord = Enum.GetValues<PaperKind>().ToDictionary(Word);

    /// <summary>As it stands in addresses and commands: "handover".</summary>
    public static string Word(this PaperKind kind) => kind.ToString().ToLowerInvariant();

    public static bool TryRead(string word, out PaperKind kind) => ByWord.TryGetValue(word, out kind);

    /// <summary>All of them, for whoever asked for another.</summary>
    public static string All { get; } = string.Join(", ", Enum.GetValues<PaperKind>().Select(Word));
}
