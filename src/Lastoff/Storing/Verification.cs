using Lastoff.Core.Ledger;

namespace Lastoff.Storing;

/// <summary>What looking through records found.</summary>
/// <param name="Fault">One sentence that names the first entry that is not as it was written; null when all are.</param>
/// <param name="Ends">The last entry of each device in each job.</param>
public sealed record Verification(int Jobs, int Entries, IReadOnlyList<(Guid Job, Entry Last)> Ends, string? Fault)
{
    /// <summary>Looks through a ledger file.</summary>
    public static Verification Of(string text, string fileName)
    {
        var reading = LedgerFile.Read(text, fileName);
        return new Verification(1, reading.Entries.Count, reading.Fault is null ? EndsOf(JobOf(reading.Entries), reading.Entries) : [], reading.Fault);
    }

    /// <summary>Looks through everything a workshop has, down to what the database says of each line beside it.</summary>
    public static Verification Of(Snapshot records)
    {
        var ends = new List<(Guid, Entry)>();
        var (jobs, all) = (0, 0);
        foreach (var job in records.Jobs)
        {
            var entries = new List<Entry>();
            foreach (var (id, device, seq, line) in records.Lines(job.Id))
            {
                if (!EntryLine.TryRead(line, out var entry, out var fault))
                {
                    return Broken($"entry {seq} of device {device} ({id}) cannot be trusted, because {fault}");
                }

                if (entry!.Id.ToString() != id || entry.Device != device || entry.Seq != seq)
                {
                    return Broken($"entry {seq} of device {device} ({id}) has the line of another, entry {entry.Seq} of device {entry.Device} ({entry.Id})");
                }

                entries.Add(entry);
            }

            if (Chain.Faults(entries) is [var first, ..])
            {
                return Broken(first.Sentence);
            }

            if (entries.Count != job.Entries)
            {
                return Broken($"{entries.Count} entries are here and {job.Entries} were taken: the last of {Last(entries)} is the end of what is left");
            }

            ends.AddRange(EndsOf(job.Id, entries));
            jobs++;
            all += entries.Count;

            Verification Broken(string what) => new(jobs, all, [], $"{records.Where}, job {job.Id}: {what}; bring it back from a device or a backup.");
        }

        return new Verification(jobs, all, ends, records.Stranger() is { } stranger
            ? $"{records.Where}: entry {stranger} belongs to a job that is not here; bring it back from a device or a backup."
            : null);
    }

    private static string Last(IReadOnlyList<Entry> entries) => entries.Count == 0 ? "none" : $"them, {entries[^1].Id},";

    private static Guid JobOf(IReadOnlyList<Entry> entries) => (entries.FirstOrDefault(entry => entry.Kind == ActKinds.JobOpened) ?? entries[0]).Id;

    private static List<(Guid, Entry)> EndsOf(Guid job, IReadOnlyList<Entry> entries) =>
        [.. entries.GroupBy(entry => entry.Device).Select(device => (job, device.MaxBy(entry => entry.Seq)!))];
}
