using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Papers;
using Lastoff.Core.Planning;
using Lastoff.Storing;

namespace Lastoff.Papers;

/// <summary>Makes the papers of a workshop's jobs from its records.</summary>
internal sealed class WorkshopPapers(Workshop workshop)
{
    /// <summary>One plan at a time: each takes a core for a moment.</summary>
    private readonly SemaphoreSlim _free = new(1);

    /// <returns>Null when the job, or the map it stands on, is not here.</returns>
    public async Task<Job?> JobAsync(Guid id)
    {
        List<Entry> entries = [.. EntryLine.ReadAll((await workshop.Entries.PageAsync(id, 0)).Lines)];
        return JobOpened.In(entries) is not { } opened ? null
            : !opened.HasMap ? Job.Recorded(entries)
            : workshop.Maps.Text(opened) is { } text && MapReader.Read(text, opened.Map).Map is { } map ? Job.From(OperationNet.From(map), entries)
            : null;
    }

    /// <param name="origin">Where a phone reaches this server; null for a paper that goes to somebody outside.</param>
    /// <param name="isAskedOnScreen">The yes is asked for under it.</param>
    public async Task<Paper> MakeAsync(Job job, PaperKind kind, string? origin, CancellationToken ct, bool isAskedOnScreen = false) => new PaperSource(job)
    {
        IsAskedOnScreen = isAskedOnScreen,
        Plan = kind is PaperKind.Labels or PaperKind.Standing ? await PlanAsync(job, ct) : null,
        Origin = origin,
        Modules = QrModules.Of,
        Photo = workshop.Photos.Find,
        Terms = Core.Pricing.TermsJson.Read(workshop.Settings.Find(Settings.Terms).Text).Value,
    }.Make(kind);

    private async Task<Plan?> PlanAsync(Job job, CancellationToken ct)
    {
        await _free.WaitAsync(ct);
        try
        {
            return await Task.Run(() => Planner.Make(job.Standing, GoalLeft.Of(job.Standing), PlanLimits.Quick, ct).Plan, ct);
        }
        finally
        {
            _free.Release();
        }
    }
}
