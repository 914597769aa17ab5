namespace Lastoff.Core.Fluids;

/// <summary>
/// How likely rounded readings are under a straight line with normal scatter, for one slope, at the best level and scatter. Its logarithm is concave in
/// 1/scatter, level/scatter and slope/scatter (Burridge, 1981), so over the slope it has one top and falls off to both sides.
/// </summary>
internal sealed class RoundedLikelihood
{
    private const int MostRounds = 60;
    private const double GoodEnough = 1e-5;

    private readonly double[] x;
    private readonly double[] low;
    private readonly double[] high;
    private readonly double meanX;
    private readonly double sharpest;
    private readonly double reach;
    private readonly Peak best;

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
        meanX = x.Average();
        sharpest = 1 / leastScatter;

        // Where the top is flat, the plain line is as good as any on it.
        var top = Top(near - (6 * reach), near + (6 * reach));
        var plain = At(near, top);
        best = plain.Value >= top.Value - GoodEnough ? plain : top;
    }

    public double BestSlope => best.Slope;

    /// <summary>How far to one side (-1 or 1) the logarithm stays within <paramref name="drop"/> of the best.</summary>
    public double Edge(int side, double drop)
    {
        var inside = best;
        var step = reach;
        var outside = At(inside.Slope + (side * step), inside);
        while (outside.Value >= best.Value - drop)
        {
            inside = outside;
            step *= 2;
            outside = At(inside.Slope + (side * step), inside);
        }

        while (Math.Abs(outside.Slope - inside.Slope) > 1e-3 * (0.1 + Math.Abs(outside.Slope - best.Slope)))
        {
            var middle = At((inside.Slope + outside.Slope) / 2, inside);
            (inside, outside) = middle.Value >= best.Value - drop ? (middle, outside) : (inside, middle);
        }

        return outside.Slope;
    }

    // Golden-section search.
    private Peak Top(double left, double right)
    {
        const double Golden = 0.6180339887498949;
        var a = At(right - (Golden * (right - left)), Plain(right - (Golden * (right - left))));
        var b = At(left + (Golden * (right - left)), a);
        while (right - left > 1e-3 * reach)
        {
            if (a.Value < b.Value)
            {
                (left, a) = (a.Slope, b);
                b = At(left + (Golden * (right - left)), a);
            }
            else
            {
                (right, b) = (b.Slope, a);
                a = At(right - (Golden * (right - left)), b);
            }
        }

        return a.Value > b.Value ? a : b;
    }

    // Mean and scatter of the middles of the readings: where to start when nothing better is known.
    private Peak Plain(double slope)
    {
        double mean = 0, meanSquare = 0;
        for (var i = 0; i < x.Length; i++)
        {
            var middle = ((low[i] + high[i]) / 2) - (slope * x[i]);
            mean += middle / x.Length;
            meanSquare += middle * middle / x.Length;
        }

        var sharpness = Math.Min(1 / Math.Sqrt(Math.Max(meanSquare - (mean * mean), 0)), sharpest);
        return new Peak(slope, double.NaN, sharpness, mean * sharpness);
    }

    // The best logarithm over level and scatter, by Newton's method on 1/scatter and level/scatter, from the peak of a slope near by.
    private Peak At(double slope, Peak near)
    {
        var lows = new double[x.Length];
        var highs = new double[x.Length];
        for (var i = 0; i < x.Length; i++)
        {
            lows[i] = low[i] - (slope * x[i]);
            highs[i] = high[i] - (slope * x[i]);
        }

        var sharpness = near.Sharpness;
        var level = near.Level - ((slope - near.Slope) * meanX * sharpness);
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
            while (share > 1e-9
                && (sharpness + (share * stepSharp) <= 0
                    || (next = Climb(lows, highs, sharpness + (share * stepSharp), level + (share * stepLevel))).Value < here.Value + (1e-4 * share * promised)))
            {
                share /= 2;
            }

            if (share <= 1e-9)
            {
                break;
            }

            sharpness += share * stepSharp;
            level += share * stepLevel;
            here = next;
        }

        return new Peak(slope, here.Value, sharpness, level);
    }

    private readonly record struct Peak(double Slope, double Value, double Sharpness, double Level);

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
