namespace Lastoff.Core.Fluids;

/// <summary>Two straight lines that meet: where a steady rise bends. The bend is tried at every place between readings, the lines by least squares.</summary>
/// <param name="Bend">Where they meet.</param>
/// <param name="BendLow">The earliest place that cannot be ruled out, at 95 %.</param>
/// <param name="BendHigh">And the latest.</param>
/// <param name="Level">The height at the bend.</param>
/// <param name="SlopeBefore">Of the first line.</param>
/// <param name="SlopeAfter">Of the second.</param>
public sealed record BrokenLine(double Bend, double BendLow, double BendHigh, double Level, double SlopeBefore, double SlopeAfter)
{
    private const int FewestReadings = 8;
    private const int Places = 200;

    // A fan that cycles makes each reading so much like the last that hardly any would count; but however alike, a log has a few stretches of its own: five,
    // as the trend takes them, less the two numbers of a line.
    private const int LeastFree = 3;

    /// <summary>The height of the first line at a place before the bend, of the second after it.</summary>
    public double LevelAt(double x) => Level + ((x < Bend ? SlopeBefore : SlopeAfter) * (x - Bend));

    /// <summary>Nothing when there are too few readings, or one straight line does as well.</summary>
    public static BrokenLine? Of(IReadOnlyList<double> x, IReadOnlyList<double> y)
    {
        if (x.Count < FewestReadings)
        {
            return null;
        }

        // A bend needs two readings on either side.
        double first = x[1], last = x[^2];
        Bent? best = null;
        var all = new List<Bent>();
        for (var i = 0; i <= Places; i++)
        {
            if (Fit(x, y, first + ((last - first) * i / Places)) is { } bent)
            {
                all.Add(bent);
                best = best is null || bent.Squares < best.Value.Squares ? bent : best;
            }
        }

        // The bend must earn the two numbers it adds to a straight line. The threshold is F's for one free number, t squared, with readings that are much
        // like their neighbours counted for less.
        if (best is not { } found)
        {
            return null;
        }

        var free = Math.Max(LeastFree, (int)Autocorrelation.Independent(found.Residuals(x, y)) - 4);
        var t = StudentT.Quantile(0.975, free);
        if (found.Squares * (1 + (2 * t * t / free)) > LineFit.Of(x, y).ResidualSumOfSquares)
        {
            return null;
        }

        var near = all.Where(bent => bent.Squares <= found.Squares * (1 + (t * t / free))).ToList();
        return new BrokenLine(found.At, near.Min(bent => bent.At), near.Max(bent => bent.At), found.Level, found.Before, found.Before + found.Turn);
    }

    // y = level + before (x - at) + turn max(0, x - at), by the three normal equations.
    private static Bent? Fit(IReadOnlyList<double> x, IReadOnlyList<double> y, double at)
    {
        double n = x.Count, u = 0, v = 0, uu = 0, uv = 0, vv = 0, w = 0, uw = 0, vw = 0;
        for (var i = 0; i < x.Count; i++)
        {
            double du = x[i] - at, dv = Math.Max(0, x[i] - at);
            u += du;
            v += dv;
            uu += du * du;
            uv += du * dv;
            vv += dv * dv;
            w += y[i];
            uw += du * y[i];
            vw += dv * y[i];
        }

        // Cramer's rule.
        var det = (n * ((uu * vv) - (uv * uv))) - (u * ((u * vv) - (uv * v))) + (v * ((u * uv) - (uu * v)));
        if (Math.Abs(det) < 1e-9 * n * uu * vv)
        {
            return null;
        }

        var level = ((w * ((uu * vv) - (uv * uv))) - (u * ((uw * vv) - (uv * vw))) + (v * ((uw * uv) - (uu * vw)))) / det;
        var before = ((n * ((uw * vv) - (uv * vw))) - (w * ((u * vv) - (uv * v))) + (v * ((u * vw) - (uw * v)))) / det;
        var turn = ((n * ((uu * vw) - (uw * uv))) - (u * ((u * vw) - (uw * v))) + (w * ((u * uv) - (uu * v)))) / det;
        var bent = new Bent(at, level, before, turn, 0);
        return bent with { Squares = bent.Residuals(x, y).Sum(residual => residual * residual) };
    }

    private readonly record struct Bent(double At, double Level, double Before, double Turn, double Squares)
    {
        public IReadOnlyList<double> Residuals(IReadOnlyList<double> x, IReadOnlyList<double> y)
        {
            var residuals = new double[x.Count];
            for (var i = 0; i < x.Count; i++)
            {
                residuals[i] = y[i] - Level - (Before * (x[i] - At)) - (Turn * Math.Max(0, x[i] - At));
            }

            return residuals;
        }
    }
}
