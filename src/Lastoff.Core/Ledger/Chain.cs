namespace Lastoff.Core.Ledger;

/// <summary>Where a chain of entries is broken: cut, changed, reordered or forked.</summary>
/// <param name="Sentence">One sentence that names the entry.</param>
public sealed record ChainFault(Entry Entry, string Sentence);

/// <summary>Each device's entries of a job form one chain: counted from 1, each carrying the hash of the one before.</summary>
public static class Chain
{
    /// <summary>Every break, in file order. Lines of other devices may stand between a device's lines, its own may not change places.</summary>
    public static IReadOnlyList<ChainFault> Faults(IReadOnlyList<Entry> entries)
    {
        var faults = new List<ChainFault>();
        var last = new Dictionary<string, Entry>();
        foreach (var entry in entries)
        {
            var before = last.GetValueOrDefault(entry.Device);
            if (Fault(before, entry) is { } fault)
            {
                faults.Add(new ChainFault(entry, $"entry {entry.Seq} of device {entry.Device} ({entry.Id}) {fault}"));
            }

            last[entry.Device] = entry;
        }

        return faults;
    }

    /// <summary>What is wrong with an entry that is to follow another of its device, as the end of a sentence; null when it fits.</summary>
    public static string? Fault(Entry? before, Entry entry)
    {
        var expected = (before?.Seq ?? 0) + 1;
        if (entry.Seq < expected)
        {
            return $"stands after entry {before!.Seq}: the lines were reordered or the chain was forked";
        }

        if (entry.Seq > expected)
        {
            return expected == entry.Seq - 1
                ? $"follows a gap: entry {expected} is missing"
                : $"follows a gap: entries {expected} to {entry.Seq - 1} are missing";
        }

        if (entry.Prev != before?.Hash)
        {
            return before is null
                ? "says another came before it: the start of the chain was cut off"
                : $"does not carry the hash of entry {before.Seq}: one of the two was changed after it was written";
        }

        return null;
    }
}
