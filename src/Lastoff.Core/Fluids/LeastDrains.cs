namespace Lastoff.Core.Fluids;

/// <summary>
/// Drains that together leave a given share of what was in, with the least fluid poured after them. What remains is the product of what each drain keeps,
/// and the fluid poured is their sum: for the same product the sum is least when all but one are as large as they can be.
/// </summary>
internal static class LeastDrains
{
    /// <summary>More than anyone would do.</summary>
    public const int Most = 20;

    /// <summary>Litres of each drain, the smaller one last; more than <see cref="Most"/> are cut off there.</summary>
    /// <param name="share">What may remain, from 0 to 1; at 1 there is nothing to drain.</param>
    public static IReadOnlyList<double> Leaving(double share, double capacityLitres, double drainLitres)
    {
        var keeps = 1 - (drainLitres / capacityLitres);
        var left = 1.0;
        var drains = new List<double>();
        while (left > share * (1 + 1e-9) && drains.Count <= Most)
        {
            var drain = left * keeps >= share ? drainLitres : capacityLitres * (1 - (share / left));
            drains.Add(drain);
            left *= 1 - (drain / capacityLitres);
        }

        return drains;
    }
}
