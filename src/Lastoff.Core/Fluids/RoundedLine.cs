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
/// it. A plain regression takes rounding for scatter that averages out; a needle that creeps less than a division makes that badly wrong. Here the interval
/// is that of <see cref="RoundedPosterior"/>, which is right as often as it says when averaged over where in its division the needle stands and over how
/// fast it moves. When the divisions are fine against the scatter it becomes Student's t interval.
/// </summary>
public sealed class RoundedLine
{
    // From here on rounding adds less than 0.5 % to the scatter, and the limit, Student's t, is used as it is.
    private const double FineDivisions = 5;

    // Readings taken within one such share of the time count as taken at once; more shares when the needle goes over many divisions.
    private const int TimeShares = 60;
    private const int TimeSharesPerDivision = 4;

    private readonly LineFit fit;
    private readonly double slopeUnit;
    private readonly RoundedPosterior? posterior;

    /// <param name="x">Where each reading was taken, rising.</param>
    /// <param name="y">The readings.</param>
    /// <param name="divisions">The width each was rounded to, above zero; all much alike.</param>
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
        if (x.Count > 2 && fit.ResidualDeviation <= FineDivisions * division)
        {
            posterior = new RoundedPosterior(Cells(x, y, division), fit.Slope / slopeUnit, fit.ResidualDeviation / division);

            // A needle that stands still, or goes as far back as forth, has no slope; sums round that off by a trifle.
            var middle = posterior.Quantile(0.5) * slopeUnit;
            Slope = Math.Abs(middle - fit.Slope) < 1e-6 * slopeUnit ? fit.Slope : middle;
        }
    }

    /// <summary>The slope that is as likely too high as too low.</summary>
    public double Slope { get; }

    /// <summary>The slopes between which it lies with a confidence such as 0.95.</summary>
    public SlopeInterval Interval(double confidence)
    {
        if (posterior is not null)
        {
            return new SlopeInterval(posterior.Quantile((1 - confidence) / 2) * slopeUnit, posterior.Quantile((1 + confidence) / 2) * slopeUnit);
        }

        // Two readings show no scatter: each is taken as read within a whole division.
        var reach = fit.Count == 2 ? 2 * slopeUnit : StudentT.Quantile((1 + confidence) / 2, fit.Count - 2) * fit.SlopeDeviation;
        return new SlopeInterval(Slope - reach, Slope + reach);
    }

    private static RoundedPosterior.Cell[] Cells(IReadOnlyList<double> x, IReadOnlyList<double> y, double division)
    {
        var shares = TimeShares + (TimeSharesPerDivision * (y.Max() - y.Min()) / division);
        var span = x[^1] - x[0];
        var middle = x.Average();
        return [.. x.Zip(y)
            .GroupBy(reading => (Math.Round(shares * (reading.First - x[0]) / span), Math.Round((reading.Second - y[0]) / division)))
            .Select(cell => new RoundedPosterior.Cell(
                (cell.Average(reading => reading.First) - middle) / span, (cell.Average(reading => reading.Second) - y[0]) / division, cell.Count()))];
    }
}
