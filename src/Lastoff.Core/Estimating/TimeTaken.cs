using Lastoff.Core.Ledger;

namespace Lastoff.Core.Estimating;

/// <summary>What a job took by its time marks, against what was charged and what its map says, where it has one.</summary>
/// <param name="WorkedMinutes">Everybody together, pauses left out.</param>
/// <param name="ChargedHours">The hours of the price that was agreed to; null where none was.</param>
/// <param name="Longer">What took clearly longer than the map says, the worst first.</param>
public sealed record TimeTaken(double WorkedMinutes, decimal? ChargedHours, IReadOnlyList<TimedStep> Longer)
{
    private const int MostNamed = 5;

    /// <summary>Less is within what one and the same hand varies by. Set down, no source.</summary>
    private const double LeastOver_min = 3;

    /// <inheritdoc cref="LeastOver_min"/>
    private const double LeastRatio = 1.5;

    /// <summary>Null when less than a minute of work is on record.</summary>
    public static TimeTaken? Of(Job job)
    {
        var worked = TimedJob.WorkedMinutes(job);
        return worked < 1 ? null : new TimeTaken(worked, job.Standing.AgreedPrice?.Price?.Price.Hours?.AtChance,
        [
            // Without a map nothing said how long it would take.
            .. (job.IsRecorded ? [] : TimedJob.Steps(job))
                .Where(step => step.Over >= LeastOver_min && step.Took.Minutes >= LeastRatio * step.Took.Work.TradeMinutes)
                .OrderByDescending(step => step.Over).ThenBy(step => step.Target, StringComparer.Ordinal)
                .Take(MostNamed),
        ]);
    }
}
