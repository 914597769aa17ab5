namespace Lastoff.Core.Estimating;

/// <summary>What is known of a group's mean once all groups are looked at together.</summary>
public readonly record struct PooledMean(double Mean, double Deviation);

/// <summary>
/// Groups whose true means are normal about a common centre: each is drawn to the centre, the more so the less it was measured and the closer the groups lie
/// together. How close they lie is not known either and is summed over, so nothing is drawn in further than the measurements allow.
/// </summary>
public sealed record PooledMeans(IReadOnlyList<PooledMean> Groups, PooledMean Centre, double Spread, double MeanSquareSpread)
{
    private const int Steps = 200;

    /// <param name="means">The measured mean of each group.</param>
    /// <param name="errors">The standard error of each, above zero.</param>
    /// <param name="centreDeviation">How far the centre may lie from zero, as a standard deviation; infinite when nothing is known of it.</param>
    /// <param name="spreadScale">The scale of the half-normal distribution of the spread between groups; infinite when nothing is known of it.</param>
    /// <exception cref="ArgumentException">The lists differ in length or are empty; or nothing is known beforehand and there are fewer than three groups.</exception>
    public static PooledMeans Of(IReadOnlyList<double> means, IReadOnlyList<double> errors, double centreDeviation, double spreadScale)
    {
        if (means.Count != errors.Count || means.Count == 0 || (double.IsInfinity(spreadScale) && means.Count < 3))
        {
            throw new ArgumentException("Pooling needs a mean and an error for each group, and three groups where nothing is known beforehand.");
        }

        // Midpoints, evenly in u with the spread at s u / (1 - u): fine near zero, and out to a hundred times the scale of the data.
        var scale = double.IsInfinity(spreadScale) ? Math.Max(means.Max() - means.Min(), errors.Average()) : spreadScale;
        List<Point> points = [.. Enumerable.Range(0, Steps).Select(i => (i + 0.5) / Steps).Select(u => At(scale * u / (1 - u), scale / ((1 - u) * (1 - u))))];
        var best = points.Max(point => point.LogWeight);
        double[] weights = [.. points.Select(point => Math.Exp(point.LogWeight - best))];
        var total = weights.Sum();
        double Over(Func<Point, double> value) => points.Select((point, i) => weights[i] * value(point)).Sum() / total;
        PooledMean Mixed(Func<Point, PooledMean> value)
        {
            var mean = Over(point => value(point).Mean);
            return new PooledMean(mean, Math.Sqrt(Over(point => (value(point).Deviation * value(point).Deviation) + ((value(point).Mean - mean) * (value(point).Mean - mean)))));
        }

        return new PooledMeans(
            [.. means.Select((_, j) => Mixed(point => Group(point, j)))],
            Mixed(point => point.Centre),
            Over(point => point.Spread),
            Over(point => point.Spread * point.Spread));

        Point At(double spread, double stretch)
        {
            var precision = double.IsInfinity(centreDeviation) ? 0 : 1 / (centreDeviation * centreDeviation);
            var (weighted, log) = (0.0, double.IsInfinity(centreDeviation) ? 0 : Math.Log(precision) / 2);
            for (var j = 0; j < means.Count; j++)
            {
                var own = 1 / ((errors[j] * errors[j]) + (spread * spread));
                precision += own;
                weighted += own * means[j];
                log += Math.Log(own) / 2;
            }

            var centre = weighted / precision;
            for (var j = 0; j < means.Count; j++)
            {
                log -= (means[j] - centre) * (means[j] - centre) / ((errors[j] * errors[j]) + (spread * spread)) / 2;
            }

            log -= double.IsInfinity(centreDeviation) ? 0 : centre * centre / (centreDeviation * centreDeviation) / 2;
            log -= double.IsInfinity(spreadScale) ? 0 : spread * spread / (spreadScale * spreadScale) / 2;
            return new Point(spread, new PooledMean(centre, 1 / Math.Sqrt(precision)), log - (Math.Log(precision) / 2) + Math.Log(stretch));
        }

        PooledMean Group(Point point, int j)
        {
            var kept = point.Spread * point.Spread / ((point.Spread * point.Spread) + (errors[j] * errors[j]));
            var fromCentre = (1 - kept) * point.Centre.Deviation;
            return new PooledMean(
                (kept * means[j]) + ((1 - kept) * point.Centre.Mean),
                Math.Sqrt((kept * errors[j] * errors[j]) + (fromCentre * fromCentre)));
        }
    }

    private readonly record struct Point(double Spread, PooledMean Centre, double LogWeight);
}
