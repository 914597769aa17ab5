using Lastoff.Core.Ledger;

namespace Lastoff.Core.Papers;

/// <summary>An entry of a job, what it records, and whether it still counts.</summary>
/// <param name="Act">Null when the entry cannot be read here.</param>
internal sealed record Written(Entry Entry, Act? Act, bool IsTakenBack);

internal static class WrittenEntries
{
    /// <summary>All of them, in the order in which they count.</summary>
    public static IReadOnlyList<Written> Of(Job job)
    {
        var acts = job.Entries.Select(entry => (Entry: entry, Act: ActKinds.Read(entry, out _))).ToArray();
        var gone = Fold.TakenBackEntries(acts);
        return [.. acts.Select(pair => new Written(pair.Entry, pair.Act, gone.Contains(pair.Entry.Id)))];
    }

    /// <summary>What a paper stands on, so that an older print is known as one.</summary>
    public static string Basis(Job job) => job.Entries.Count == 0
        ? "Nothing is written in this ledger yet."
        : job.Entries.MaxBy(entry => entry.Id) is var last && job.Entries.Count == 1
            ? $"Made from one entry, of {PaperTime.Of(last!.At)}, by {last.By}."
            : $"Made from {job.Entries.Count} entries, the last of {PaperTime.Of(last!.At)}, by {last.By}.";
}
