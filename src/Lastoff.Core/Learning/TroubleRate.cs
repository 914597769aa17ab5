namespace Lastoff.Core.Learning;

/// <summary>How often a thing broke or seized when it was undone.</summary>
/// <param name="Seen">How often it went wrong in this way, of <paramref name="Times"/> times.</param>
/// <param name="ExtraMinutes">What it took on average when it did.</param>
public sealed record TroubleRate(string Name, TroubleKind Kind, int Seen, int Times, double ExtraMinutes)
{
    /// <summary>Before anything was seen: one time in twenty, known about as well as if ten had been looked at. Set down, no source.</summary>
    private const double PriorWrong = 0.5;
    private const double PriorRight = 9.5;

    /// <summary>The chance that it goes wrong the next time: the mean of the Beta distribution after what was seen.</summary>
    public double Chance => (PriorWrong + Seen) / (PriorWrong + PriorRight + Times);

    public string Sentence => $"“{Name}” {(Kind == TroubleKind.Broke ? "broke" : "seized")} in {Seen} of {Times} strips.";

    /// <summary>Everything that went wrong at least once.</summary>
    internal static IReadOnlyList<TroubleRate> Of(Sightings seen) =>
    [
        .. from sort in new[] { Sort.Supply, Sort.Part, Sort.Joint }
           from name in seen.Named(sort)
           let all = seen.Of(sort, name)
           from wrong in all.Select(s => s.Removal.Trouble).OfType<Trouble>().GroupBy(trouble => trouble.Kind)
           select new TroubleRate(name, wrong.Key, wrong.Count(), all.Count, wrong.Average(trouble => trouble.ExtraMinutes)),
    ];
}
