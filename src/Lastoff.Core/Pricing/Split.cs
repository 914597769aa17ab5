namespace Lastoff.Core.Pricing;

/// <summary>Shares of an amount that add up to it to the smallest unit, each within one unit of its exact share (largest remainder).</summary>
public static class Split
{
    /// <summary>One share for each weight, in their order. What is left over goes to the largest fractions, then the larger weight, then the earlier one.</summary>
    /// <param name="weights">Not negative, and one of them above zero.</param>
    /// <exception cref="ArgumentException">A weight is negative or there is none above zero.</exception>
    public static IReadOnlyList<Money> Of(Money amount, IReadOnlyList<long> weights) =>
        [.. Of(Math.Abs(amount.Units), weights).Select(share => Money.Of((amount.IsNegative ? -share : share) * amount.Currency.Smallest, amount.Currency))];

    /// <summary>Whole units, such as hundredths of an hour, in the same way.</summary>
    /// <param name="units">Not negative.</param>
    /// <param name="weights">Not negative, and one of them above zero.</param>
    /// <exception cref="ArgumentException">A weight is negative or there is none above zero.</exception>
    public static IReadOnlyList<long> Of(long units, IReadOnlyList<long> weights)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(units);
        if (weights.Any(weight => weight < 0) || weights.All(weight => weight == 0))
        {
            throw new ArgumentException("An amount is split by weights that are not negative, and not all nothing.", nameof(weights));
        }

        // The product of two whole numbers of 63 bits has room here, so no share is a hair off.
        var all = weights.Aggregate(Int128.Zero, (sum, weight) => sum + weight);
        (Int128 Whole, Int128 Fraction)[] exact = [.. weights.Select(weight => Int128.DivRem((Int128)units * weight, all))];
        long[] shares = [.. exact.Select(share => (long)share.Whole)];
        var left = (int)(units - shares.Sum());
        foreach (var i in Enumerable.Range(0, shares.Length).OrderByDescending(i => exact[i].Fraction).ThenByDescending(i => weights[i]).ThenBy(i => i).Take(left))
        {
            shares[i]++;
        }

        return shares;
    }
}
