namespace Lastoff.Core.Ledger;

/// <summary>What a device held of the others' entries when it wrote one of its own: the last count of each.</summary>
/// <remarks>
/// An entry says only what came in since the device's entry before it, so one person's job says nothing. The first entry says it in any case, if only
/// that there was nothing: a chain that begins without was written before entries said so, and is taken to have seen all that stands before it.
/// </remarks>
internal sealed class Sight
{
    private readonly IReadOnlyDictionary<string, long>? _counts;

    private Sight(IReadOnlyDictionary<string, long>? counts) => _counts = counts;

    /// <summary>Of a device that has not written yet, or has not said what it saw.</summary>
    public static Sight Unsaid { get; } = new(null);

    public bool Has(Entry entry) => Has(entry.Device, entry.Seq);

    public bool Has(string device, long seq) => _counts is null || _counts.GetValueOrDefault(device) >= seq;

    /// <summary>With what the device's next entry says.</summary>
    public Sight Then(Entry entry)
    {
        if (entry.Seen is not { } seen || (seen.Count == 0 && _counts is not null))
        {
            return this;
        }

        var counts = new Dictionary<string, long>(_counts ?? seen);
        foreach (var (device, seq) in seen)
        {
            // A count never falls: what was seen once stays seen.
            counts[device] = Math.Max(seq, counts.GetValueOrDefault(device));
        }

        return new Sight(counts);
    }

    /// <summary>What a device that holds these entries has to say in its next one; null when nothing came in since its last.</summary>
    public static IReadOnlyDictionary<string, long>? ToSay(IEnumerable<Entry> held, string device)
    {
        var sight = Unsaid;
        var counts = new SortedDictionary<string, long>(StringComparer.Ordinal);
        foreach (var entry in held)
        {
            if (entry.Device == device)
            {
                sight = sight.Then(entry);
            }
            else
            {
                counts[entry.Device] = Math.Max(entry.Seq, counts.GetValueOrDefault(entry.Device));
            }
        }

        var isFirst = sight._counts is null;
        var news = counts.Where(count => isFirst || !sight.Has(count.Key, count.Value)).ToDictionary();
        return isFirst || news.Count > 0 ? news : null;
    }
}
