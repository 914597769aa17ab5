namespace Lastoff.Core.Fluids;

/// <summary>
/// How likely each slope is, given readings of which only the division is known that the needle stood in. The likelihood of a reading is the probability
/// that normal scatter about the line falls within its division. Level and slope may beforehand be anything, each as likely. So may the scatter, by
/// Jeffreys's rule: as likely as readings can tell it from its neighbours, which is as 1/scatter when the divisions are fine, and as the root of that when
/// they are coarse, since then only the readings near the edge of a division tell anything; below a division a little less so, since a few readings of which
/// hardly any move otherwise look surer than they are. Level and scatter are summed over.
/// </summary>
internal sealed class RoundedPosterior
{
    // In divisions. Finer scatter looks like this, and stands in its row.
    private const double FinestScatter = 0.03;

    // Logarithms this far below the best add nothing that shows.
    private const double Negligible = 16;

    // How much less likely beforehand finer scatter is than by Jeffreys's rule, as a power of it. Set by simulated holds (bench, hold): without it intervals at a
    // scatter of 0.2 divisions held the truth 93 times in a hundred.
    private const double LessForFiner = 0.25;

    // From one slope to the next, in spreads where they are likely.
    private const double SlopeStep = 0.125;

    private readonly Cell[] cells;
    private readonly int readings;
    private readonly double[] slopes;
    private readonly double[] below;

    /// <param name="cells">Readings in divisions; the times average nothing.</param>
    /// <param name="slope">The least-squares slope.</param>
    /// <param name="scatter">The standard deviation about it.</param>
    public RoundedPosterior(Cell[] cells, double slope, double scatter)
    {
        this.cells = cells;
        readings = cells.Sum(cell => cell.Count);

        // Slopes lie close where they are likely and far apart in the tails, which are those of Student's t.
        var spread = Math.Sqrt(((scatter * scatter) + (1.0 / 12)) / cells.Sum(cell => cell.Count * cell.X * cell.X));
        var widest = Math.Max(27, 2 * StudentT.Quantile(0.9995, readings - 2));
        var half = (int)Math.Ceiling(Math.Asinh(widest) / SlopeStep);
        slopes = [.. Enumerable.Range(-half, (2 * half) + 1).Select(i => slope + (spread * Math.Sinh(i * SlopeStep)))];

        var rows = Rows(scatter);
        var best = rows.Max(row => row.Max());
        below = new double[slopes.Length];
        for (var i = 0; i < slopes.Length; i++)
        {
            // Each slope stands for a stretch as wide as the derivative of the sinh.
            var mass = rows.Sum(row => Math.Exp(row[i] - best)) * Math.Cosh((i - half) * SlopeStep);
            below[i] = mass + (i > 0 ? below[i - 1] : 0);
        }
    }

    /// <summary>Readings that were taken close to each other and show the same.</summary>
    public readonly record struct Cell(double X, double Y, int Count);

    /// <summary>The slope below which so much of the probability lies.</summary>
    public double Quantile(double probability)
    {
        // Half of each mass lies to either side of its slope.
        double Share(int i) => ((i > 0 ? below[i - 1] : 0) + below[i]) / 2 / below[^1];
        var above = 1;
        while (above < slopes.Length - 1 && Share(above) < probability)
        {
            above++;
        }

        double from = Share(above - 1), to = Share(above);
        return slopes[above - 1] + ((slopes[above] - slopes[above - 1]) * Math.Clamp((probability - from) / (to - from), 0, 1));
    }

    // Scatters lie evenly by how well the readings can tell them apart, a little wider than that, over all that the readings leave possible: so each is as
    // likely beforehand, but for the finest, which stands for all that are finer.
    private List<double[]> Rows(double scatter)
    {
        var step = 1.2 / Math.Sqrt(2.0 * (readings - 2));
        var finest = Place(FinestScatter);
        var least = scatter > 1 ? Math.Max(finest, Place(scatter) - (5 * step)) : finest;
        var most = Place(Math.Max(0.5, scatter)) + (6 * step);
        var rows = new List<double[]>();
        var best = double.NegativeInfinity;
        for (var at = least; at <= most; at += step)
        {
            var finer = at < 2 ? at * at / 4 : 1;
            var less = LessForFiner * Math.Log(finer);
            double[] row = [.. Row(at < 2 ? finer : Math.Exp(at - 2), best - less).Select(log => log + less)];
            if (at == finest)
            {
                row = [.. row.Select(log => log + Math.Log(0.5 + (at / step)))];
            }

            rows.Add(row);
            var top = row.Max();
            if (top < best - Negligible)
            {
                break;
            }

            best = Math.Max(best, top);
        }

        return rows;
    }

    // The integral of what is likely beforehand: of the root of 1/scatter up to a division, of 1/scatter beyond.
    private static double Place(double scatter) => scatter < 1 ? 2 * Math.Sqrt(scatter) : 2 + Math.Log(scatter);

    // The logarithm of the likelihood of each slope at one scatter, summed over the level. It has one top over level and slope (Burridge, 1981).
    private double[] Row(double scatter, double best)
    {
        var row = new double[slopes.Length];
        Array.Fill(row, double.NegativeInfinity);
        var division = new DivisionLogs(scatter);
        var step = Math.Min(1.2 * Math.Sqrt(((scatter * scatter) + (1.0 / 12)) / readings), (0.8 * scatter) + 0.02);
        var middle = slopes.Length / 2;
        var start = cells.Sum(cell => cell.Count * cell.Y) / readings;
        foreach (var side in new[] { 1, -1 })
        {
            var level = start;
            var seen = false;
            for (var i = side > 0 ? middle : middle - 1; i >= 0 && i < slopes.Length; i += side)
            {
                row[i] = OverLevels(division, slopes[i], step, best, ref level);
                best = Math.Max(best, row[i]);
                if (seen && row[i] < best - (2 * Negligible))
                {
                    break;
                }

                seen |= row[i] > best - (2 * Negligible);
            }
        }

        return row;
    }

    // The sum over the level at one slope: from the top, which is near that of the slope before, to both sides until nothing is added.
    private double OverLevels(DivisionLogs division, double slope, double step, double best, ref double level)
    {
        var top = At(division, slope, level);
        foreach (var side in new[] { step, -step })
        {
            for (double next; (next = At(division, slope, level + side)) > top; level += side)
            {
                top = next;
            }
        }

        if (top < best - (4 * Negligible))
        {
            return double.NegativeInfinity;
        }

        var sum = 1.0;
        foreach (var side in new[] { step, -step })
        {
            var at = level + side;
            for (double next; (next = At(division, slope, at) - top) > -Negligible; at += side)
            {
                sum += Math.Exp(next);
            }
        }

        return top + Math.Log(sum * step);
    }

    private double At(DivisionLogs division, double slope, double level)
    {
        var sum = 0.0;
        foreach (var cell in cells)
        {
            sum += cell.Count * division.At(cell.Y - level - (slope * cell.X));
        }

        return sum;
    }
}
