namespace Lastoff.Core.Fluids;

/// <summary>Student's t distribution: how far a slope may be off when its scatter is only known from the readings themselves.</summary>
public static class StudentT
{
    /// <summary>The value that lies above <paramref name="probability"/> of the distribution.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The probability is not between 0 and 1, or there is no degree of freedom.</exception>
    public static double Quantile(double probability, int degreesOfFreedom)
    {
        if (probability is not (> 0 and < 1) || degreesOfFreedom < 1)
        {
            throw new ArgumentOutOfRangeException(nameof(probability), probability, "A quantile needs a probability between 0 and 1 and at least one degree of freedom.");
        }

        if (probability < 0.5)
        {
            return -Quantile(1 - probability, degreesOfFreedom);
        }

        var high = 1.0;
        while (Below(high, degreesOfFreedom) < probability)
        {
            high *= 2;
        }

        var low = 0.0;
        for (var i = 0; i < 80; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = Below(middle, degreesOfFreedom) < probability ? (middle, high) : (low, middle);
        }

        return high;
    }

    /// <summary>The probability of lying below a value.</summary>
    public static double Below(double t, int degreesOfFreedom)
    {
        var tail = IncompleteBeta(degreesOfFreedom / 2.0, 0.5, degreesOfFreedom / (degreesOfFreedom + (t * t))) / 2;
        return t > 0 ? 1 - tail : tail;
    }

    // The regularised incomplete beta function by its continued fraction (DLMF 8.17.22), from the side on which it converges fast.
    private static double IncompleteBeta(double a, double b, double x)
    {
        if (x <= 0 || x >= 1)
        {
            return x <= 0 ? 0 : 1;
        }

        if (x > (a + 1) / (a + b + 2))
        {
            return 1 - IncompleteBeta(b, a, 1 - x);
        }

        var front = Math.Exp((a * Math.Log(x)) + (b * Math.Log(1 - x)) - LogBeta(a, b)) / a;
        var fraction = 1.0;
        for (var m = 120; m >= 1; m--)
        {
            // Terms 2m+1 and 2m of the fraction, from the inside outwards.
            var odd = -(a + m) * (a + b + m) * x / ((a + (2 * m)) * (a + (2 * m) + 1));
            var even = m * (b - m) * x / ((a + (2 * m) - 1) * (a + (2 * m)));
            fraction = 1 + (even / (1 + (odd / fraction)));
        }

        var first = -(a + b) * x / (a + 1);
        return front / (1 + (first / fraction));
    }

    // ln B(a, b) for a a multiple of 1/2 and b = 1/2, or the other way round: both gammas climb from 1/2 or 1 by their recurrence.
    private static double LogBeta(double a, double b) => LogGammaOfHalves(a) + LogGammaOfHalves(b) - LogGammaOfHalves(a + b);

    private static double LogGammaOfHalves(double x)
    {
        var sum = x % 1 == 0 ? 0 : Math.Log(Math.PI) / 2;
        for (var at = x % 1 == 0 ? 1 : 0.5; at < x; at++)
        {
            sum += Math.Log(at);
        }

        return sum;
    }
}
