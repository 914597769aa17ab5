using Lastoff.Core.Ledger;

namespace Lastoff.Storing;

/// <summary>What the records hold beside the entries that were sent, and which of these go on from it. An entry is taken whole and in its device's order, or refused with a sentence.</summary>
internal sealed class Chains
{
    private readonly HashSet<Guid> _open = [];
    private readonly Dictionary<(Guid Job, string Device), Entry> _heads = [];
    private readonly Dictionary<(Guid Job, Guid Id), string> _lines = [];
    private readonly List<(Guid Job, Entry Entry)> _kept = [];

    /// <summary>The entries that were not here before, to be kept in this order.</summary>
    public IReadOnlyList<(Guid Job, Entry Entry)> Kept => _kept;

    /// <summary>The job is open here.</summary>
    public void Open(Guid job) => _open.Add(job);

    /// <summary>The last entry of a device in a job.</summary>
    public void EndsWith(Guid job, string device, string line)
    {
        if (EntryLine.TryRead(line, out var entry, out _))
        {
            _heads[(job, device)] = entry!;
        }
    }

    /// <summary>The line of an entry that was sent and is here already, or of another under its identifier.</summary>
    public void Has(Guid job, Guid id, string line) => _lines[(job, id)] = line;

    /// <summary>Takes what was sent of one job. What it keeps counts for what was sent after it.</summary>
    public (Receipt Receipt, int New) Take(SentEntries sent)
    {
        var accepted = new List<Guid>();
        var refused = sent.Refused.ToList();
        var fresh = new Dictionary<Guid, Entry>();
        var heads = new Dictionary<string, Entry?>();
        var torn = new HashSet<string>();
        var kept = new List<Entry>();
        foreach (var entry in sent.Entries)
        {
            var here = _lines.GetValueOrDefault((sent.Job, entry.Id));
            var head = heads.TryGetValue(entry.Device, out var last) ? last : _heads.GetValueOrDefault((sent.Job, entry.Device));
            if (entry.Seq <= (head?.Seq ?? 0))
            {
                // It was here before, or should have been. Sent twice at once, it is answered once.
                var twice = fresh.GetValueOrDefault(entry.Id);
                var known = twice?.Line ?? here;
                if (known != entry.Line)
                {
                    refused.Add(Refused(entry, known is null ? Broken(head, entry)! : Another(entry)));
                }
                else if (twice is null)
                {
                    accepted.Add(entry.Id);
                }
            }
            else if (!_open.Contains(sent.Job) && entry.Id != sent.Job && !fresh.ContainsKey(sent.Job))
            {
                refused.Add(Refused(entry, "The job is not open here: send its first entry first."));
            }
            else if (Broken(head, entry) is { } broken)
            {
                refused.Add(Refused(entry, broken));
            }
            else if (!fresh.TryAdd(entry.Id, entry))
            {
                refused.Add(Refused(entry, Another(entry)));
            }
            else
            {
                heads[entry.Device] = entry;
                if (torn.Contains(entry.Device))
                {
                    refused.Add(Refused(entry, $"Entry {entry.Seq} of device {entry.Device} follows one that was not taken."));
                }
                else if (here is not null)
                {
                    torn.Add(entry.Device);
                    refused.Add(Refused(entry, Another(entry)));
                }
                else
                {
                    kept.Add(entry);
                }
            }
        }

        Keep(sent.Job, kept);
        accepted.AddRange(kept.Select(entry => entry.Id));
        return (new Receipt(accepted, refused), kept.Count);
    }

    private void Keep(Guid job, List<Entry> entries)
    {
        foreach (var entry in entries)
        {
            _kept.Add((job, entry));
            _heads[(job, entry.Device)] = entry;
            _lines[(job, entry.Id)] = entry.Line;
            if (entry.Id == job)
            {
                _open.Add(job);
            }
        }
    }

    private static string? Broken(Entry? head, Entry entry) =>
        Chain.Fault(head, entry) is { } fault ? $"Entry {entry.Seq} of device {entry.Device} {fault}." : null;

    private static string Another(Entry entry) => $"Another entry is here under the identifier {entry.Id}.";

    private static RefusedEntry Refused(Entry entry, string why) => new(entry.Id.ToString(), why);
}
