namespace Lastoff.Core.Ledger;

/// <summary>A ledger file as it was read: the entries, or the one sentence that says why it cannot be trusted.</summary>
/// <param name="Entries">The whole entries before the fault; all of them when there is none.</param>
public sealed record LedgerReading(IReadOnlyList<Entry> Entries, string? Fault);

/// <summary>Reads and writes a ledger as JSON Lines, one entry a line.</summary>
public static class LedgerFile
{
    public static string Write(IEnumerable<Entry> entries) => string.Concat(entries.Select(e => e.Line + "\n"));

    /// <param name="fileName">Named in the fault.</param>
    public static LedgerReading Read(string text, string fileName)
    {
        var entries = new List<Entry>();
        var lines = new Dictionary<Guid, int>();
        var number = 0;
        // Not EnumerateLines: a note may hold U+2028 and its like, which JSON leaves as they are.
        foreach (var line in text.Split('\n'))
        {
            number++;
            if (string.IsNullOrWhiteSpace(line))
            {
                continue;
            }

            if (!EntryLine.TryRead(line.TrimEnd('\r'), out var entry, out var fault))
            {
                return new LedgerReading(entries, $"{fileName}, line {number}: this entry cannot be trusted, because {fault}. The {entries.Count} entries before it are whole; restore the rest from the device or a backup.");
            }

            if (!lines.TryAdd(entry!.Id, number))
            {
                return new LedgerReading(entries, $"{fileName}, line {number}: entry {entry.Id} stands on line {lines[entry.Id]} already; remove the second copy.");
            }

            if (entries.Count > 0 && entries[0].Seal is null != entry.Seal is null)
            {
                return new LedgerReading(entries, $"{fileName}, line {number}: entry {entry.Id} {(entry.Seal is null ? "has lost its seal" : "has a seal and those before it have none")}; restore the file from the device or a backup.");
            }

            entries.Add(entry);
        }

        if (entries.Count == 0)
        {
            return new LedgerReading(entries, $"{fileName}, line 1: the ledger is empty; give the file that was exported from the job.");
        }

        var broken = Chain.Faults(entries).FirstOrDefault();
        return broken is null
            ? new LedgerReading(entries, null)
            : new LedgerReading(entries, $"{fileName}, line {lines[broken.Entry.Id]}: {broken.Sentence}; restore the file from the device or a backup.");
    }
}
