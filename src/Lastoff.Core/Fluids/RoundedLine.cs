namespace Lastoff.Core.Fluids;

/// <summary>A slope and how sure it is.</summary>
public readonly record struct SlopeInterval(double Low, double High)
{
    /// <summary>With another error, of which only the bound is known, taken in: the two half-widths add up as squares.</summary>
    public SlopeInterval With(double bound, double slope) => new(
        slope - Math.Sqrt(((slope - Low) * (slope - Low)) + (bound * bound)),
        slope + Math.Sqrt(((High - slope) * (High - slope)) + (bound * bound)));
}

/// <summary>
/// A straight line through readings of a dial that was read to whole divisions. Each reading says only that the needle stood within half a division of
/// it. A plain regression takes rounding for scatter that averages out; a needle that creeps less than a division makes that badly wrong. Here the
/// likelihood counts each reading as an interval under normal scatter, and the interval holds the slopes whose best likelihood is near the best of all.
/// The threshold is the one that gives Student's t interval exactly when the divisions are fine against the scatter.
/// </summary>
public sealed class RoundedLine
{
    // From here on rounding adds less than 0.5 % to the scatter, and the limit, Student's t, is used as it is.
    private const double FineDivisions = 5;

    // The scatter behind the rounding is not known when it is below a division, and both guesses mislead: taken as none, a line that happens to pass
    // through all divisions counts as certain; taken as large, a needle about to cross a division seems to move fast. So the interval holds what either
    // allows: scatter from a fiftieth of a division up, and from a quarter up. Chosen by simulation: see the table in docs/methods/fluids.md.
    private const double FinestScatter = 0.02;
    private const double CoarserScatter = 0.25;

    private readonly LineFit fit;
    private readonly bool fine;
    private readonly double slopeUnit;
    private readonly RoundedLikelihood[] likelihoods = [];

    /// <param name="x">Where each reading was taken, rising.</param>
    /// <param name="y">The readings.</param>
    /// <param name="divisions">The width each was rounded to, above zero.</param>
    /// <exception cref="ArgumentException">There are fewer than two readings, x does not rise, or a division is not above zero.</exception>
    public RoundedLine(IReadOnlyList<double> x, IReadOnlyList<double> y, IReadOnlyList<double> divisions)
    {
        if (divisions.Count != x.Count || divisions.Any(width => !(width > 0)))
        {
            throw new ArgumentException("Every reading needs a division above zero.", nameof(divisions));
        }

        if (x.Zip(x.Skip(1)).Any(pair => !(pair.First < pair.Second)))
        {
            throw new ArgumentException("Readings are in the order they were taken.", nameof(x));
        }

        fit = LineFit.Of(x, y);
        Slope = fit.Slope;

        // In units of the mean division and of the time watched, all numbers are near one.
        var division = divisions.Average();
        slopeUnit = division / (x[^1] - x[0]);
        fine = x.Count > 2 && fit.ResidualDeviation > FineDivisions * division;
        if (x.Count > 2 && !fine)
        {
            double[] places = [.. x.Select(at => (at - x[0]) / (x[^1] - x[0]))];
            double[] low = [.. y.Select((value, i) => (value - y[0] - (divisions[i] / 2)) / division)];
            double[] high = [.. y.Select((value, i) => (value - y[0] + (divisions[i] / 2)) / division)];
            var reach = 0.5 + (fit.SlopeDeviation / slopeUnit);
            likelihoods =
            [
                new RoundedLikelihood(places, low, high, CoarserScatter, fit.Slope / slopeUnit, reach),
                new RoundedLikelihood(places, low, high, FinestScatter, fit.Slope / slopeUnit, reach),
            ];
            Slope = likelihoods[0].BestSlope * slopeUnit;
        }
    }

    /// <summary>The likeliest slope.</summary>
    public double Slope { get; }

    /// <summary>The slopes that cannot be ruled out at a confidence such as 0.95.</summary>
    public SlopeInterval Interval(double confidence)
    {
        // Two readings show no scatter: each is taken as read within a whole division.
        if (fit.Count == 2)
        {
            return new SlopeInterval(Slope - (2 * slopeUnit), Slope + (2 * slopeUnit));
        }

        var t = StudentT.Quantile((1 + confidence) / 2, fit.Count - 2);
        if (fine)
        {
            return new SlopeInterval(Slope - (t * fit.SlopeDeviation), Slope + (t * fit.SlopeDeviation));
        }

        var drop = fit.Count / 2.0 * Math.Log(1 + (t * t / (fit.Count - 2)));
        return new SlopeInterval(
            likelihoods.Min(likelihood => likelihood.Edge(-1, drop)) * slopeUnit,
            likelihoods.Max(likelihood => likelihood.Edge(1, drop)) * slopeUnit);
    }
}
