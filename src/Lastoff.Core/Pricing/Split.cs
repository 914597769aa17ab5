using System.Numerics;

namespace Lastoff.Core.Pricing;

/// <summary>Shares of an amount that add up to it to the smallest unit, each within one unit of its exact share (largest remainder).</summary>
public static class Split
{
    /// <summary>One share for each weight, in their order. What is left over goes to the largest fractions, then the larger weight, then the earlier one.</summary>
    /// <param name="weights">Not negative, and one of them above zero.</param>
    /// <exception cref="ArgumentException">A weight is negative or there is none above zero.</exception>
    public static IReadOnlyList<Money> Of(Money amount, IReadOnlyList<decimal> weights)
    {
        var unit = amount.Currency.Smallest;
        var shares = Of((long)(Math.Abs(amount.Amount) / unit), weights);
        return [.. shares.Select(share => Money.Of((amount.IsNegative ? -share : share) * unit, amount.Currency))];
    }

    /// <summary>Whole units, such as hundredths of an hour, in the same way.</summary>
    /// <param name="units">Not negative.</param>
    /// <param name="weights">Not negative, and one of them above zero.</param>
    /// <exception cref="ArgumentException">A weight is negative or there is none above zero.</exception>
    public static IReadOnlyList<long> Of(long units, IReadOnlyList<decimal> weights)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(units);
        if (weights.Any(weight => weight < 0) || weights.All(weight => weight == 0))
        {
            throw new ArgumentException("An amount is split by weights that are not negative, and not all nothing.", nameof(weights));
        }

        // Whole numbers, so that no share is a hair off.
        BigInteger[] whole = [.. weights.Select(Whole)];
        var all = whole.Aggregate(BigInteger.Zero, (sum, weight) => sum + weight);
        var shares = new long[whole.Length];
        var fractions = new BigInteger[whole.Length];
        for (var i = 0; i < whole.Length; i++)
        {
            shares[i] = (long)BigInteger.DivRem(units * whole[i], all, out fractions[i]);
        }

        var left = (int)(units - shares.Sum());
        foreach (var i in Enumerable.Range(0, shares.Length).OrderByDescending(i => fractions[i]).ThenByDescending(i => whole[i]).ThenBy(i => i).Take(left))
        {
            shares[i]++;
        }

        return shares;
    }

    /// <summary>The weight times 10 to the 28th, the most decimals a decimal has.</summary>
    private static BigInteger Whole(decimal weight)
    {
        Span<int> bits = stackalloc int[4];
        decimal.GetBits(weight, bits);
        var digits = new BigInteger((uint)bits[0]) + (new BigInteger((uint)bits[1]) << 32) + (new BigInteger((uint)bits[2]) << 64);
        return digits * BigInteger.Pow(10, 28 - ((bits[3] >> 16) & 0xFF));
    }
}
