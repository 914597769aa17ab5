using Lastoff.Core.Ledger;

namespace Lastoff.Bench;

/// <summary>A workshop of some years: a thousand jobs of a hundred entries, invented.</summary>
internal static class LargeWorkshop
{
    private const int Jobs = 1000;
    private const int EntriesOfEach = 100;

    /// <summary>Notes in many jobs, two devices in each, in the order in which they are sent.</summary>
    public static List<(Guid Job, Entry Entry)> Rows()
    {
        var random = new Random(9);
        var rows = new List<(Guid, Entry)>();
        var bytes = new byte[10];
        for (var job = 0; job < Jobs; job++)
        {
            Entry? opening = null;
            Guid? latest = null;
            var last = new Entry?[2];
            for (var entry = 0; entry < EntriesOfEach; entry++)
            {
                random.NextBytes(bytes);
                var at = DateTimeOffset.UnixEpoch.AddYears(56).AddMinutes((job * 200) + entry);
                latest = EntryId.Next(at, latest, bytes);
                Act act = entry == 0 ? new JobOpened("orchard-sprayer-pump", "Invented sprayer", "It drips", "A seal", ["upper-diaphragm"], []) : new Moved(Move.JointUndone, $"joint-{entry}", "measured, not done");
                last[entry % 2] = EntryLine.Write(act, latest.Value, $"device-{job % 30}-{entry % 2}", at, "Invented Mechanic", last[entry % 2]);
                opening ??= last[0];
                rows.Add((opening!.Id, last[entry % 2]!));
            }
        }

        return rows;
    }
}
