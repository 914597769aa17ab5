namespace Lastoff.Core.Estimating;

/// <summary>Times of jobs without those that went too fast to be believed: somebody tapped through them, or wrote them down afterwards.</summary>
/// <param name="LeftOut">How many jobs were left out, with all their times.</param>
public sealed record HastyJobs(IReadOnlyList<TimedWork> Kept, int LeftOut)
{
    /// <summary>
    /// A job is left out below this part both of what the map says and of what the other jobs took. Set down, no source: by the spreads the model takes
    /// beforehand, jobs of one workshop differ by a fifth or so, and less than half is beyond three deviations.
    /// </summary>
    private const double LeastShare = 0.5;

    public static HastyJobs Of(IReadOnlyList<TimedWork> timed)
    {
        List<(IReadOnlyList<TimedWork> Work, double Share)> jobs =
            [.. timed.GroupBy(work => work.Work.Traits.GetValueOrDefault(Trait.Job)).Select(job => ((IReadOnlyList<TimedWork>)[.. job], job.Sum(work => work.Minutes) / job.Sum(work => work.Work.TradeMinutes)))];
        var hasty = AreHasty([.. jobs.Select(job => job.Share)]);
        var kept = jobs.Where((_, i) => !hasty[i]).ToList();
        return new HastyJobs([.. kept.SelectMany(job => job.Work)], jobs.Count - kept.Count);
    }

    /// <summary>Of jobs that took such parts of what the map or the trade says, which went too fast to be believed.</summary>
    public static IReadOnlyList<bool> AreHasty(IReadOnlyList<double> shares) =>
        [.. shares.Select((share, i) => share < LeastShare * Math.Min(1, Median([.. shares.Where((_, other) => other != i)])))];

    /// <summary>What the map says, where there is no other job.</summary>
    private static double Median(List<double> shares)
    {
        shares.Sort();
        return shares.Count == 0 ? 1 : (shares[(shares.Count - 1) / 2] + shares[shares.Count / 2]) / 2;
    }
}
