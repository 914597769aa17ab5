using System.Security.Cryptography;
using Lastoff.Core.Ledger;

namespace Lastoff.Storing;

/// <summary>The photos that a workshop's entries name, held against those that are here.</summary>
/// <param name="Here">The SHA-256 of those that are here; each photo is two files, a small and a large one.</param>
/// <param name="Away">How many files are not here: they may still be on the phone that took them.</param>
/// <param name="Fault">One sentence that names the first file that is not what it was; null when all are.</param>
public sealed record PhotoVerification(IReadOnlyList<string> Here, int Away, string? Fault)
{
    public static PhotoVerification Of(Snapshot records, PhotoLibrary photos)
    {
        var here = new List<string>();
        var away = 0;
        foreach (var hash in Named(records))
        {
            if (photos.Find(hash) is not { } file)
            {
                away++;
            }
            else if (Convert.ToHexStringLower(SHA256.HashData(file)) != hash)
            {
                return new PhotoVerification(here, away, $"{records.Where}: the photo {hash} was changed after it was taken; take its file away, and it comes again from the device that took it.");
            }
            else
            {
                here.Add(hash);
            }
        }

        return new PhotoVerification(here, away, null);
    }

    private static IEnumerable<string> Named(Snapshot records) =>
        (from job in records.Jobs
         from entry in EntryLine.ReadAll(records.Lines(job.Id).Select(stored => stored.Line))
         where entry.Kind == ActKinds.PhotoTaken
         let taken = ActKinds.Read(entry, out _) as PhotoTaken
         where taken is not null
         from hash in (string[])[taken.Photo, taken.Thumbnail]
         select hash).Distinct();
}
