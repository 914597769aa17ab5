using Lastoff.Core.Ledger;

namespace Lastoff.Storing;

/// <summary>What a device sent of one job, read and looked through as far as that needs no database.</summary>
/// <param name="Refused">Lines that are no entries, or none that any store takes.</param>
internal sealed record SentEntries(Guid Job, IReadOnlyList<Entry> Entries, IReadOnlyList<RefusedEntry> Refused)
{
    public static SentEntries Read(Guid job, IEnumerable<string> lines)
    {
        var entries = new List<Entry>();
        var refused = new List<RefusedEntry>();
        foreach (var line in lines)
        {
            if (!EntryLine.TryRead(line, out var entry, out var fault))
            {
                refused.Add(new RefusedEntry("", $"This entry cannot be taken, because {fault}."));
            }
            else if (Fault(job, entry!) is { } why)
            {
                refused.Add(new RefusedEntry(entry!.Id.ToString(), why));
            }
            else
            {
                entries.Add(entry!);
            }
        }

        return new SentEntries(job, entries, refused);
    }

    /// <summary>The map a job is opened with.</summary>
    public static string MapOf(Entry opening) => ((JobOpened)ActKinds.Read(opening, out _)!).Map;

    private static string? Fault(Guid job, Entry entry)
    {
        if (entry.Seal is null)
        {
            return "This entry has no seal; entries are sealed when they are written.";
        }

        if (entry.Id == job && ActKinds.Read(entry, out _) is not JobOpened)
        {
            return "A job begins with the entry that opens it.";
        }

        // PostgreSQL keeps no NUL in a text; a line has it only escaped.
        return entry.Device.Contains('\0') || (entry.Id == job && MapOf(entry).Contains('\0')) ? "The name of its device or map holds a NUL character, which no name has." : null;
    }
}
