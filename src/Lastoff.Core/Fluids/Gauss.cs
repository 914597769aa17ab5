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

    /// <summary>The value that so large a share of all values lies below.</summary>
    /// <param name="share">Between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">It is not.</exception>
    public static double Quantile(double share)
    {
        if (share is not (> 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(share), share, "A share lies between 0 and 1.");
        }

        // Halving keeps to the one table of tails there is; sixty halvings of 80 are finer than a double.
        var (low, high) = (-40.0, 40.0);
        for (var halving = 0; halving < 60; halving++)
        {
            var middle = (low + high) / 2;
            (low, high) = LogAbove(middle) > Math.Log(1 - share) ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
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
