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
    public static Verification Of(Workshop workshop)
    {
        var ends = new List<(Guid, Entry)>();
        var (jobs, all) = (0, 0);
        using var connection = workshop.Database.OpenToRead();
        foreach (var job in workshop.Entries.Jobs().Jobs)
        {
            var entries = new List<Entry>();
            using var command = connection.Command(
                "SELECT id, device, seq, line FROM entries WHERE workshop = @workshop AND job = @job ORDER BY arrival", ("@workshop", workshop.Number), ("@job", job.Id.ToString()));
            using var reader = command.ExecuteReader();
            while (reader.Read())
            {
                var (id, device, seq) = (reader.GetString(0), reader.GetString(1), reader.GetInt64(2));
                if (!EntryLine.TryRead(reader.GetString(3), out var entry, out var fault))
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

            Verification Broken(string what) =>
                new(jobs, all, [], $"{workshop.Database.Where}, job {job.Id}: {what}; bring it back from a device or a backup.");
        }

        return new Verification(jobs, all, ends, Strangers(workshop));
    }

    /// <summary>Entries under no job: the job's own row was taken away.</summary>
    private static string? Strangers(Workshop workshop)
    {
        using var connection = workshop.Database.OpenToRead();
        var id = connection.One(
            "SELECT min(id) FROM entries WHERE workshop = @workshop AND NOT EXISTS (SELECT 1 FROM jobs WHERE jobs.workshop = entries.workshop AND jobs.id = entries.job)",
            ("@workshop", workshop.Number));
        return id is null ? null : $"{workshop.Database.Where}: entry {id} belongs to a job that is not here; bring it back from a device or a backup.";
    }

    private static string Last(IReadOnlyList<Entry> entries) => entries.Count == 0 ? "none" : $"them, {entries[^1].Id},";

    private static Guid JobOf(IReadOnlyList<Entry> entries) => (entries.FirstOrDefault(entry => entry.Kind == ActKinds.JobOpened) ?? entries[0]).Id;

    private static List<(Guid, Entry)> EndsOf(Guid job, IReadOnlyList<Entry> entries) =>
        [.. entries.GroupBy(entry => entry.Device).Select(device => (job, device.MaxBy(entry => entry.Seq)!))];
}
