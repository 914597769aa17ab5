using Lastoff.Core.Fluids;

namespace Lastoff.Core.Estimating;

/// <summary>What a sum of pieces of work takes: log-normal, by its median and the standard deviation of its logarithm.</summary>
public readonly record struct MinutesEstimate(double P50, double Deviation)
{
    /// <summary>Nine times in ten it takes less.</summary>
    public double P90 => At(0.9);

    /// <summary>The minutes that it takes less than with this chance.</summary>
    /// <param name="chance">Between 0 and 1, both left out.</param>
    /// <exception cref="ArgumentOutOfRangeException">The chance is not between 0 and 1.</exception>
    public double At(double chance) => P50 * Math.Exp(Gauss.Quantile(chance) * Deviation);

    /// <summary>The log-normal of this mean and variance (Fenton and Wilkinson).</summary>
    public static MinutesEstimate Of(Moments sum)
    {
        if (sum.Mean == 0)
        {
            return default;
        }

        var square = Math.Log(1 + (sum.Variance / (sum.Mean * sum.Mean)));
        return new MinutesEstimate(sum.Mean * Math.Exp(-square / 2), Math.Sqrt(square));
    }
}

/// <summary>The mean of some minutes and their variance. Those of things that have nothing to do with each other add up.</summary>
public readonly record struct Moments(double Mean, double Variance)
{
    public static Moments operator +(Moments one, Moments other) => new(one.Mean + other.Mean, one.Variance + other.Variance);

    /// <summary>Of the log-normal with this median and this standard deviation of the logarithm.</summary>
    public static Moments LogNormal(double median, double deviation)
    {
        var mean = median * Math.Exp(deviation * deviation / 2);
        return new Moments(mean, mean * mean * (Math.Exp(deviation * deviation) - 1));
    }
}
