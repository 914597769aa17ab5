namespace Lastoff.Core.Fluids;

/// <summary>
/// How likely rounded readings are under a straight line with normal scatter, for one slope, at the best level and scatter. Its logarithm is concave in
/// 1/scatter, level/scatter and slope/scatter (Burridge, 1981), so over the slope it has one top and falls off to both sides.
/// </summary>
internal sealed class RoundedLikelihood
{
    private const int MostRounds = 60;
    private const double GoodEnough = 1e-6;

    private readonly double[] x;
    private readonly double[] low;
    private readonly double[] high;
    private readonly double sharpest;
    private readonly double reach;
    private readonly double best;

    /// <param name="x">Where each reading was taken.</param>
    /// <param name="low">The least each can have been.</param>
    /// <param name="high">The most each can have been.</param>
    /// <param name="leastScatter">Scatter is never taken as smaller.</param>
    /// <param name="near">Where to look for the best slope.</param>
    /// <param name="reach">How far off it may be, about.</param>
    public RoundedLikelihood(double[] x, double[] low, double[] high, double leastScatter, double near, double reach)
    {
        this.x = x;
        this.low = low;
        this.high = high;
        this.reach = reach;
        sharpest = 1 / leastScatter;
        (BestSlope, best) = Top(near - (6 * reach), near + (6 * reach));
    }

    public double BestSlope { get; }

    /// <summary>How far to one side (-1 or 1) the logarithm stays within <paramref name="drop"/> of the best.</summary>
    public double Edge(int side, double drop)
    {
        var inside = BestSlope;
        var step = reach;
        while (At(inside + (side * step)) >= best - drop)
        {
            inside += side * step;
            step *= 2;
        }

        var outside = inside + (side * step);
        while (Math.Abs(outside - inside) > 1e-3 * (0.1 + Math.Abs(outside - BestSlope)))
        {
            var middle = (inside + outside) / 2;
            (inside, outside) = At(middle) >= best - drop ? (middle, outside) : (inside, middle);
        }

        return outside;
    }

    // Golden-section search.
    private (double Slope, double Logarithm) Top(double left, double right)
    {
        const double Golden = 0.6180339887498949;
        double a = right - (Golden * (right - left)), b = left + (Golden * (right - left));
        double atA = At(a), atB = At(b);
        while (right - left > 1e-3 * reach)
        {
            if (atA < atB)
            {
                (left, a, atA) = (a, b, atB);
                b = left + (Golden * (right - left));
                atB = At(b);
            }
            else
            {
                (right, b, atB) = (b, a, atA);
                a = right - (Golden * (right - left));
                atA = At(a);
            }
        }

        return atA > atB ? (a, atA) : (b, atB);
    }

    // The best logarithm over level and scatter, by Newton's method on 1/scatter and level/scatter.
    private double At(double slope)
    {
        var lows = new double[x.Length];
        var highs = new double[x.Length];
        double mean = 0, meanSquare = 0;
        for (var i = 0; i < x.Length; i++)
        {
            lows[i] = low[i] - (slope * x[i]);
            highs[i] = high[i] - (slope * x[i]);
            var middle = (lows[i] + highs[i]) / 2;
            mean += middle / x.Length;
            meanSquare += middle * middle / x.Length;
        }

        var sharpness = Math.Min(1 / Math.Sqrt(Math.Max(meanSquare - (mean * mean), 0)), sharpest);
        var level = mean * sharpness;
        var here = Climb(lows, highs, sharpness, level);
        for (var round = 0; round < MostRounds; round++)
        {
            // At the least scatter, only the level is left to move.
            var held = sharpness >= sharpest && here.Sharp >= 0;
            var determinant = (here.SharpSharp * here.LevelLevel) - (here.SharpLevel * here.SharpLevel);
            var stepSharp = held ? 0 : -((here.LevelLevel * here.Sharp) - (here.SharpLevel * here.Level)) / determinant;
            var stepLevel = held ? -here.Level / here.LevelLevel : -((here.SharpSharp * here.Level) - (here.SharpLevel * here.Sharp)) / determinant;
            var promised = (stepSharp * here.Sharp) + (stepLevel * here.Level);
            if (!(promised >= GoodEnough))
            {
                break;
            }

            // The whole step, or as much of it as stays inside and truly climbs.
            var share = stepSharp > 0 ? Math.Min(1, (sharpest - sharpness) / stepSharp) : 1;
            var next = default(Climbed);
            while (sharpness + (share * stepSharp) <= 0
                || (next = Climb(lows, highs, sharpness + (share * stepSharp), level + (share * stepLevel))).Value < here.Value + (1e-4 * share * promised))
            {
                share /= 2;
                if (share < 1e-9)
                {
                    return here.Value;
                }
            }

            sharpness += share * stepSharp;
            level += share * stepLevel;
            here = next;
        }

        return here.Value;
    }

    // The logarithm with its first and second derivatives.
    private static Climbed Climb(double[] lows, double[] highs, double sharpness, double level)
    {
        var sum = default(Climbed);
        for (var i = 0; i < lows.Length; i++)
        {
            double from = (sharpness * lows[i]) - level, to = (sharpness * highs[i]) - level;
            var log = Gauss.LogBetween(from, to);
            double atFrom = Math.Exp(Gauss.LogDensity(from) - log), atTo = Math.Exp(Gauss.LogDensity(to) - log);
            double fromFrom = (from * atFrom) - (atFrom * atFrom), toTo = (-to * atTo) - (atTo * atTo), both = atFrom * atTo;
            sum.Value += log;
            sum.Sharp += (atTo * highs[i]) - (atFrom * lows[i]);
            sum.Level += atFrom - atTo;
            sum.SharpSharp += (toTo * highs[i] * highs[i]) + (fromFrom * lows[i] * lows[i]) + (2 * both * highs[i] * lows[i]);
            sum.LevelLevel += toTo + fromFrom + (2 * both);
            sum.SharpLevel -= (toTo * highs[i]) + (fromFrom * lows[i]) + (both * (highs[i] + lows[i]));
        }

        return sum;
    }

    private struct Climbed
    {
        public double Value;
        public double Sharp;
        public double Level;
        public double SharpSharp;
        public double LevelLevel;
        public double SharpLevel;
    }
}
