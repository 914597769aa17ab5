namespace Lastoff.Core.Fluids;

/// <summary>Whole containers to buy: the least volume that is enough, and of that the fewest containers.</summary>
public static class Containers
{
    public const double LeastLitres = StepLitres;
    public const double MostLitres = 1000;
    public const string OutOfRange = "Containers and fillings are between 0.01 L and 1000 L; check the number and its unit.";

    private const double StepLitres = 0.01;

    /// <summary>How many of each size, in the order given.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A size or the amount is not between 0.01 L and 1000 L.</exception>
    public static IReadOnlyList<int> ToBuy(double neededLitres, IReadOnlyList<double> sizesLitres)
    {
        if (neededLitres is not (>= 0 and <= MostLitres) || sizesLitres.Count == 0 || sizesLitres.Any(size => size is not (>= StepLitres and <= MostLitres)))
        {
            throw new ArgumentOutOfRangeException(nameof(sizesLitres), OutOfRange);
        }

        var needed = (int)Math.Ceiling((neededLitres / StepLitres) - 1e-6);
        var sizes = sizesLitres.Select(size => (int)Math.Round(size / StepLitres)).ToArray();

        // fewest[v]: the smallest number of containers that make up exactly v; last[v]: the one added last.
        var top = needed + sizes.Max();
        var fewest = new int[top + 1];
        var last = new int[top + 1];
        for (var volume = 1; volume <= top; volume++)
        {
            fewest[volume] = int.MaxValue;
            for (var i = 0; i < sizes.Length; i++)
            {
                if (sizes[i] <= volume && fewest[volume - sizes[i]] < int.MaxValue && fewest[volume - sizes[i]] + 1 < fewest[volume])
                {
                    fewest[volume] = fewest[volume - sizes[i]] + 1;
                    last[volume] = i;
                }
            }
        }

        var bought = new int[sizes.Length];
        var left = Enumerable.Range(needed, top - needed + 1).First(volume => fewest[volume] < int.MaxValue);
        while (left > 0)
        {
            bought[last[left]]++;
            left -= sizes[last[left]];
        }

        return bought;
    }
}
