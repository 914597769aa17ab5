namespace Lastoff.Core.Fluids;

/// <summary>The normal distribution, with tails that stay exact far out.</summary>
public static class Gauss
{
    private const double LogRootTwoPi = 0.91893853320467274178;
    private const double SeriesUntil = 4;

    public static double LogDensity(double x) => (-x * x / 2) - LogRootTwoPi;

    /// <summary>The logarithm of the probability of lying above <paramref name="x"/>.</summary>
    public static double LogAbove(double x) => x switch
    {
        < -SeriesUntil => LogOneMinusExp(LogAbove(-x)),
        <= SeriesUntil => Math.Log(0.5 - CentralHalf(x)),
        _ => LogDensity(x) - Math.Log(MillsDenominator(x)),
    };

    /// <summary>The value that lies above this share of the distribution.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not between 0 and 1.</exception>
    public static double Quantile(double probability)
    {
        if (probability is not (> 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(probability), probability, "A quantile needs a probability between 0 and 1.");
        }

        if (probability < 0.5)
        {
            return -Quantile(1 - probability);
        }

        // Newton's steps on the logarithm of the upper tail, which is nearly a straight line far out.
        var (x, wanted) = (0.0, Math.Log(1 - probability));
        for (var step = 0; step < 50; step++)
        {
            var above = LogAbove(x);
            var next = x + ((above - wanted) / Math.Exp(LogDensity(x) - above));
            if (Math.Abs(next - x) <= 1e-15 * Math.Max(1, next))
            {
                break;
            }

            x = next;
        }

        return x;
    }

    /// <summary>The logarithm of the probability of lying between two values.</summary>
    public static double LogBetween(double low, double high)
    {
        // Mirrored, so that the difference is taken between upper tails, where they are small.
        if (low + high < 0)
        {
            (low, high) = (-high, -low);
        }

        var above = LogAbove(low);
        return double.IsPositiveInfinity(high) ? above : above + LogOneMinusExp(LogAbove(high) - above);
    }

    // The probability between 0 and x: density times x + x^3/3 + x^5/15 + ...
    private static double CentralHalf(double x)
    {
        var term = x;
        var sum = x;
        for (var k = 3; Math.Abs(term) > 1e-17 * Math.Abs(sum); k += 2)
        {
            term *= x * x / k;
            sum += term;
        }

        return sum * Math.Exp(LogDensity(x));
    }

    // The upper tail is the density over x + 1/(x + 2/(x + 3/(x + ...))), taken from deep enough inside outwards.
    private static double MillsDenominator(double x)
    {
        var fraction = x;
        for (var k = 50; k >= 1; k--)
        {
            fraction = x + (k / fraction);
        }

        return fraction;
    }

    // Divisions here are never fine against the scatter, so the exponent stays away from zero and no digits are lost.
    private static double LogOneMinusExp(double negative) => Math.Log(1 - Math.Exp(negative));
}
