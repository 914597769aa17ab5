using System.Runtime.InteropServices;

namespace Lastoff.Core.Ledger;

/// <summary>The one order in which entries count, whatever order they arrived in.</summary>
public static class EntryOrder
{
    /// <summary>Sorts by identifier, which is a clock that knows what its device had seen, never letting a device's own entries change places.</summary>
    public static IReadOnlyList<Entry> Of(IEnumerable<Entry> entries)
    {
        var given = entries.ToArray();
        return IsInOrder(given) ? given : Sorted(given);
    }

    /// <summary>As the entries of one device are, and those that were sorted before: each once, with no count out of turn.</summary>
    private static bool IsInOrder(Entry[] entries)
    {
        var latest = Guid.Empty;
        var counts = new Dictionary<string, long>();
        foreach (var entry in entries)
        {
            ref var count = ref CollectionsMarshal.GetValueRefOrAddDefault(counts, entry.Device, out _);
            if (entry.Id.CompareTo(latest) <= 0 || entry.Seq <= count)
            {
                return false;
            }

            (latest, count) = (entry.Id, entry.Seq);
        }

        return true;
    }

    private static IReadOnlyList<Entry> Sorted(Entry[] entries)
    {
        var keyed = new List<(Guid Key, Entry Entry)>();
        foreach (var device in entries.DistinctBy(e => e.Id).GroupBy(e => e.Device))
        {
            // A device whose identifiers ever ran backwards is still believed about its own order: the key only grows.
            var key = Guid.Empty;
            foreach (var entry in device.OrderBy(e => e.Seq).ThenBy(e => e.Id))
            {
                // Guids compare as their texts do: by their bytes as they are written, the most significant first.
                key = entry.Id.CompareTo(key) > 0 ? entry.Id : key;
                keyed.Add((key, entry));
            }
        }

        keyed.Sort(static (a, b) =>
        {
            var byKey = a.Key.CompareTo(b.Key);
            var byDevice = byKey != 0 ? byKey : string.CompareOrdinal(a.Entry.Device, b.Entry.Device);
            return byDevice != 0 ? byDevice : a.Entry.Seq.CompareTo(b.Entry.Seq);
        });
        return [.. keyed.Select(k => k.Entry)];
    }
}
