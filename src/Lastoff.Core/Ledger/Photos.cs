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

        return [.. from pair in CountedEntry.AllOf(job.Entries)
                   where pair is { Act: PhotoTaken, IsTakenBack: false }
                   select new Photo(pair.Entry, (PhotoTaken)pair.Act!)];
    }
}
