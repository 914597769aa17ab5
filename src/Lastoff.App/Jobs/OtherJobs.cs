using Lastoff.App.Device;
using Lastoff.Core.Learning;
using Lastoff.Core.Ledger;

namespace Lastoff.App.Jobs;

/// <summary>What the other jobs on this device have to say to one.</summary>
public static class OtherJobs
{
    /// <summary>The newest so many: reading more is waited for.</summary>
    private const int Most = 200;

    /// <summary>What was learned at jobs on the same map, the newest first.</summary>
    public static async Task<IReadOnlyList<Lesson>> LessonsAsync(Store store, Guid job, string map)
    {
        var lessons = new List<Lesson>();
        foreach (var other in await NewestAsync(store, kept => kept.Map == map && kept.Id != job.ToString()))
        {
            lessons.AddRange(Lesson.In(other, await store.EntriesAsync(other, ActKinds.Learned, ActKinds.TakenBack)).Reverse());
        }

        return lessons;
    }

    /// <summary>What gave trouble at jobs on the same map, and how often.</summary>
    public static async Task<IReadOnlyList<TroubleRate>> TroubleAsync(Store store, Guid job, string map)
    {
        var jobs = new List<IReadOnlyList<Entry>>();
        foreach (var other in await NewestAsync(store, kept => kept.Map == map && kept.Id != job.ToString()))
        {
            jobs.Add(await store.EntriesAsync(other, ActKinds.Of(Move.JointUndone), ActKinds.JointStuck, ActKinds.TakenBack));
        }

        return TroubleMet.At(jobs);
    }

    /// <summary>The jobs that this one's machine came back with, and when they were opened.</summary>
    public static async Task<IReadOnlyList<(Guid Job, DateTimeOffset At)>> ComebacksAsync(Store store, Guid job)
    {
        var back = new List<(Guid, DateTimeOffset)>();
        foreach (var later in await NewestAsync(store, kept => string.CompareOrdinal(kept.Id, job.ToString()) > 0))
        {
            var opening = await store.EntriesAsync(later, ActKinds.JobOpened);
            if (JobOpened.In(opening)?.ComebackOf == job)
            {
                back.Add((later, opening[0].At));
            }
        }

        return back;
    }

    private static async Task<IReadOnlyList<Guid>> NewestAsync(Store store, Func<KeptJob, bool> counts) =>
        [.. (await store.JobsAsync()).Where(counts).Select(kept => Guid.Parse(kept.Id)).OrderDescending().Take(Most)];
}
