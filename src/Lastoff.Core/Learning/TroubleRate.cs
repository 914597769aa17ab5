namespace Lastoff.Core.Learning;

/// <summary>How often a thing broke or seized when it was undone.</summary>
/// <param name="Seen">How often it went wrong in this way, of <paramref name="Times"/> times.</param>
/// <param name="ExtraMinutes">What it took on average when it did; null when it was never timed.</param>
public sealed record TroubleRate(string Name, TroubleKind Kind, int Seen, int Times, double? ExtraMinutes)
{
    /// <summary>Before anything was seen: one time in twenty, known about as well as if ten had been looked at. Set down, no source.</summary>
    public const double Unknown = 0.05;
    private const double LookedAt = 10;

    /// <summary>The chance before any of this was seen.</summary>
    public double Before { get; init; } = Unknown;

    /// <summary>The chance that it goes wrong the next time: the mean of the Beta distribution after what was seen.</summary>
    public double Chance => ((LookedAt * Before) + Seen) / (LookedAt + Times);

    /// <summary>Everything that went wrong at least once.</summary>
    internal static IReadOnlyList<TroubleRate> Of(Sightings seen) =>
        [.. from sort in Enum.GetValues<Sort>() from name in seen.Named(sort) from rate in Of(seen, sort, name) select rate];

    /// <summary>What went wrong with one thing, the most frequent first.</summary>
    internal static IEnumerable<TroubleRate> Of(Sightings seen, Sort sort, string name)
    {
        var all = seen.Of(sort, name);
        return all.Select(s => s.Removal.Trouble).OfType<Trouble>().GroupBy(trouble => trouble.Kind)
            .Select(wrong => new TroubleRate(name, wrong.Key, wrong.Count(), all.Count, wrong.Average(trouble => trouble.ExtraMinutes)))
            .OrderByDescending(rate => rate.Seen);
    }
}
