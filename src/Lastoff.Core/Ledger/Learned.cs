using System.Text.Json.Nodes;

namespace Lastoff.Core.Ledger;

/// <summary>What is to be known the next time such a machine comes.</summary>
/// <param name="About">The part, joint or supply it is about; null for the job as a whole.</param>
public sealed record Learned(string Text, string? About = null) : Act
{
    public override string Kind => ActKinds.Learned;

    public override JsonObject ToData() => About is null ? new() { ["text"] = Text } : new() { ["text"] = Text, ["about"] = About };
}

/// <summary>Something that was learned at an earlier job.</summary>
/// <param name="Job">That job.</param>
/// <param name="Entry">The entry that says it.</param>
public sealed record Lesson(Guid Job, Entry Entry, Learned Learned)
{
    /// <summary>What was learned in a job and nobody took back, in the order in which it counts.</summary>
    /// <param name="entries">The entries of one job, in any order.</param>
    public static IReadOnlyList<Lesson> In(Guid job, IReadOnlyCollection<Entry> entries)
    {
        if (entries.All(entry => entry.Kind != ActKinds.Learned))
        {
            return [];
        }

        return [.. CountedEntry.AllOf(EntryOrder.Of(entries)).Where(pair => pair is { Act: Ledger.Learned, IsTakenBack: false }).Select(pair => new Lesson(job, pair.Entry, (Learned)pair.Act!))];
    }
}
