namespace Lastoff.Core.Ledger;

/// <summary>A photo of a job, and the entry that says who took it and when.</summary>
public sealed record Photo(Entry Entry, PhotoTaken Taken);

/// <summary>The photos of a job that nobody took back.</summary>
public static class Photos
{
    /// <summary>In the order in which they count.</summary>
    public static IReadOnlyList<Photo> Of(Job job)
    {
        if (job.Entries.All(entry => entry.Kind != ActKinds.PhotoTaken))
        {
            return [];
        }

        var acts = job.Entries.Select(entry => (Entry: entry, Act: ActKinds.Read(entry, out _))).ToArray();
        var gone = Fold.TakenBackEntries(acts);
        return [.. from pair in acts
                   where pair.Act is PhotoTaken && !gone.Contains(pair.Entry.Id)
                   select new Photo(pair.Entry, (PhotoTaken)pair.Act!)];
    }
}
