using Lastoff.App.Device;
using Lastoff.Core.Ledger;
using Lastoff.Core.Planning;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Jobs;

/// <summary>What a job waits for, in words.</summary>
public sealed record SaidWait(WaitKind Kind, string Words);

/// <summary>A photo by the SHA-256 of its file, and who took it.</summary>
public sealed record TakenBy(string Photo, string By);

/// <summary>One line in the list of jobs.</summary>
/// <param name="Goal">What it is for.</param>
/// <param name="Open">How much is still open; null when that cannot be said here.</param>
/// <param name="Next">What is to be done, in words.</param>
public sealed record JobLine(Guid Id, string Machine, string Goal, int? Open, string Next, bool IsHome, DateTimeOffset LastAt)
{
    /// <summary>What is to be looked at again, by day; null when nothing is.</summary>
    public string? Due { get; init; }

    /// <summary>What it waits for and whom, in words, what holds up most first.</summary>
    public IReadOnlyList<SaidWait> Waits { get; init; } = [];

    /// <summary>The photos of an open job, which may still be on their way, by the SHA-256 of their files, and who took each.</summary>
    public IReadOnlyList<TakenBy> Photos { get; init; } = [];

    /// <summary>What is open in it, a sentence each; what is asked of people stands in what it waits for.</summary>
    public IReadOnlyList<string> OpenHere { get; init; } = [];

    /// <summary>What it was read from; null when it may not be kept, because that can change unnoticed.</summary>
    public LineSource? Source { get; init; }

    public static async Task<JobLine?> ReadAsync(KeptJob kept, Store store, MapShelf maps)
    {
        if (!Guid.TryParse(kept.Id, out var id) || await store.EntriesAsync(id) is var entries && JobOpened.In(entries) is not { } opened)
        {
            return null;
        }

        var map = opened.HasMap ? await maps.HereAsync(opened) : null;
        if (map is null && opened.HasMap)
        {
            return new JobLine(id, opened.Machine, "", null, Say($"Its map “{opened.Map}” is not on this device yet"), false, entries.Max(entry => entry.At));
        }

        var job = map is null ? Job.Recorded(entries) : Job.From(map.Net, entries);
        var standing = job.Standing;
        var open = OpenItems.Of(standing);
        var now = LocalTime.Now;
        var waits = WaitsFor.Of(job, now);
        return new JobLine(
            id, opened.Machine, Words.Goals.Of(standing), open.Count, Following(standing, open),
            standing.HandedOver is not null, WentHome(job) ?? job.Entries[^1].At)
        {
            Waits = [.. waits.Select(wait => new SaidWait(wait.Kind, WaitingWords.Of(wait)))],
            Photos = standing.HandedOver is null ? [.. Core.Ledger.Photos.Of(job).Select(photo => new TakenBy(photo.Taken.Photo, photo.Entry.By))] : [],
            OpenHere = [.. open.Where(item => item.Kind is not (OpenKind.Question or OpenKind.Yes)).Select(item => item.Sentence)],
            Due = standing.File.ReChecks.Where(check => check.Found is null).MinBy(check => check.On) is { } check ? Say($"Look again on {Words.Figures.Day(check.On)}: {check.What}") : null,
            // A map that is named without its text may become another one.
            Source = opened.HasMap && opened.MapSha256 is null ? null : LineSource.Of(entries.Count, now, waits, standing.HandedOver is null ? null : job.Entries[^1].At),
        };
    }

    /// <summary>What is written down beside the work after the handover does not move it.</summary>
    private static DateTimeOffset? WentHome(Job job) => job.Standing.HandedOver is null ? null
        : CountedEntry.AllOf(job.Entries).Last(counted => counted is { IsTakenBack: false, Act: HandedOver }).Entry.At;

    private static string Following(Standing standing, IReadOnlyList<OpenItem> open) =>
        standing.HandedOver is { } handed ? Say($"Handed over to {handed.To}")
        : !standing.Opened!.HasMap && standing.Disturbed.Count == 0 ? Say("Record what comes off")
        : standing.IsUndecided ? Say("Find the cause")
        : standing.Agreed is null ? Say("Get the yes and write it down")
        : GoalLeft.IsAhead(standing) ? standing.Done.Count == 0 ? Say("Start on the way out") : Say("On the way out")
        : standing.Done.Count > 0 ? !standing.Opened!.HasMap && standing.Done.Count == standing.Disturbed.Count ? Say("Taking it apart") : Say("On the way back")
        : standing.File.StillInside.Any() ? Say("Find what fell in")
        : open.Count > 0 ? Say("Prove the repair")
        : Say("Hand over");
}
