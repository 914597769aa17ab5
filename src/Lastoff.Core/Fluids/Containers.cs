namespace Lastoff.Core.Fluids;

/// <summary>Whole containers to buy.</summary>
public static class Containers
{
    public const double LeastLitres = 0.01;
    public const double MostLitres = 1000;
    public const string OutOfRange = "Containers and fillings are between 0.01 L and 1000 L; check the number and its unit.";

    // What containers are whole numbers of: a centilitre, the fluid ounces of which a US gallon has 128 and an imperial one 160 (the gallons as Maps.Volume has them), or else a millilitre.
    private static readonly double[] Steps_L = [LeastLitres, 3.785411784 / 128, 4.54609 / 160, 0.001];

    /// <summary>How many of each size, in the order given: the least volume that is enough, and of that the fewest containers.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A size or the amount is not between 0.01 L and 1000 L.</exception>
    public static IReadOnlyList<int> ToBuy(double neededLitres, IReadOnlyList<double> sizesLitres) => Cheapest(neededLitres, sizesLitres, new decimal[sizesLitres.Count]);

    /// <summary>How many of each size, in the order given: what is enough for the least money; of that what leaves the least over, and of that the fewest containers.</summary>
    /// <param name="prices">What a container of each size costs, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A size or the amount is not between 0.01 L and 1000 L, or a price is below zero.</exception>
    /// <exception cref="ArgumentException">There are not as many prices as sizes.</exception>
    public static IReadOnlyList<int> Cheapest(double neededLitres, IReadOnlyList<double> sizesLitres, IReadOnlyList<decimal> prices)
    {
        if (neededLitres is not (>= 0 and <= MostLitres) || sizesLitres.Count == 0 || sizesLitres.Any(size => size is not (>= LeastLitres and <= MostLitres)))
        {
            throw new ArgumentOutOfRangeException(nameof(sizesLitres), OutOfRange);
        }

        if (prices.Count != sizesLitres.Count)
        {
            throw new ArgumentException("Each size has one price.", nameof(prices));
        }

        ArgumentOutOfRangeException.ThrowIfNegative(prices.Min(), nameof(prices));

        var step = Steps_L.FirstOrDefault(step => sizesLitres.All(size => Math.Abs((size / step) - Math.Round(size / step)) < 1e-6), Steps_L[^1]);
        var needed = (int)Math.Ceiling((neededLitres / step) - 1e-6);
        int[] sizes = [.. sizesLitres.Select(size => (int)Math.Floor((size / step) + 1e-6))];

        // cost[v] and count[v]: the least money that buys exactly v, and the fewest containers for that; last[v]: the one added last.
        // Nothing cheapest holds a whole container more than is needed, so there is no need to look further.
        var top = needed + sizes.Max();
        var (cost, count, last) = (new decimal[top + 1], new int[top + 1], new int[top + 1]);
        for (var volume = 1; volume <= top; volume++)
        {
            count[volume] = int.MaxValue;
            for (var i = 0; i < sizes.Length; i++)
            {
                if (sizes[i] <= volume && volume - sizes[i] is var before && count[before] < int.MaxValue
                    && (count[volume] == int.MaxValue || (cost[before] + prices[i], count[before] + 1).CompareTo((cost[volume], count[volume])) < 0))
                {
                    (cost[volume], count[volume], last[volume]) = (cost[before] + prices[i], count[before] + 1, i);
                }
            }
        }

        var bought = new int[sizes.Length];
        var left = Enumerable.Range(needed, top - needed + 1).Where(volume => count[volume] < int.MaxValue).MinBy(volume => cost[volume]);
        while (left > 0)
        {
            bought[last[left]]++;
            left -= sizes[last[left]];
        }

        return bought;
    }
}
