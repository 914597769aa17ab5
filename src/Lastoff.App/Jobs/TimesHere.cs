using Lastoff.App.Device;
using Lastoff.Core.Estimating;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.App.Jobs;

/// <summary>What a plan takes by the times of the other jobs on this device.</summary>
public sealed class TimesHere(Store store, MapShelf maps, Person person)
{
    /// <summary>The newest so many jobs: they say how the work goes today, and reading more is waited for.</summary>
    private const int MostJobs = 30;

    private readonly Dictionary<Guid, double?> _factors = [];

    /// <summary>
    /// How many of the workshop's minutes go to one of the map's, by the plan of the whole job; null when too little was timed. Looked up once for a job: by what is
    /// left of it another would come out each time, and one surprise would not begin where the last one ended.
    /// </summary>
    public async Task<double?> FactorAsync(JobSession session)
    {
        if (!_factors.TryGetValue(session.Id, out var factor))
        {
            // What happened is painted before the planner takes the only thread.
            await Task.Delay(1);
            var whole = Planner.Make(session.Net, new Goal([.. session.Standing.GoalParts], [.. session.Standing.GoalJoints]), session.Net.Nothing, PlanLimits.AtOnce).Plan?.WithoutTrouble();
            _factors[session.Id] = factor = whole is null ? null : (await OfAsync(session.Id, session.Net, whole))?.FactorOn(whole);
        }

        return factor;
    }

    /// <param name="job">The job that the plan is of, which is not held against itself.</param>
    /// <returns>Null when too little was timed.</returns>
    public async Task<PlanTimes?> OfAsync(Guid job, OperationNet net, Plan plan)
    {
        var timed = new List<TimedWork>();
        var onThisMap = 0;
        foreach (var other in (await store.JobsAsync()).Select(kept => Guid.Parse(kept.Id)).Where(id => id != job).OrderDescending().Take(MostJobs))
        {
            var entries = await store.EntriesAsync(other);
            if (JobOpened.In(entries) is { } opened)
            {
                onThisMap += opened.Map == net.Map.Name ? 1 : 0;
                timed.AddRange(!opened.HasMap ? TimedJob.OfRecording(entries) : await maps.HereAsync(opened) is { } map ? TimedJob.Of(map.Net, entries) : []);
            }
        }

        return PlanTimes.Of(net, plan, timed, person.Name.Length > 0 ? person.Name : null) is { } times ? times with { OnThisMap = onThisMap } : null;
    }
}
