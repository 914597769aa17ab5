using Lastoff.Core.Ledger;

namespace Lastoff.Storing;

/// <summary>The texts of a workshop's maps, held against their SHA-256 and against the jobs that stand on them.</summary>
/// <param name="Here">How many texts are here.</param>
/// <param name="Away">How many texts jobs stand on that are not here: the devices that opened those jobs have them.</param>
/// <param name="Fault">One sentence that names the first text that is not what it was; null when all are.</param>
public sealed record MapVerification(int Here, int Away, string? Fault)
{
    public static MapVerification Of(Snapshot records)
    {
        var here = new HashSet<string>();
        foreach (var text in records.MapTexts())
        {
            if (Entry.Sha256(text.Yaml) != text.Hash)
            {
                return new MapVerification(here.Count, 0, $"{records.Where}: the text {text.Hash} of the map “{text.Name}” was changed after it was saved; bring it back from a backup.");
            }

            here.Add(text.Hash);
        }

        var named = from job in records.Jobs
                    let opened = JobOpened.In(EntryLine.ReadAll(records.Lines(job.Id).Where(stored => stored.Id == job.Id.ToString()).Select(stored => stored.Line)))
                    where opened?.MapSha256 is not null
                    select opened.MapSha256;
        return new MapVerification(here.Count, named.Distinct().Count(hash => !here.Contains(hash)), null);
    }
}
