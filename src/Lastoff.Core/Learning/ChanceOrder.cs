namespace Lastoff.Core.Learning;

/// <summary>How often things that do not depend on each other are seen in one and the same order all the same.</summary>
/// <remarks>
/// A pair is either necessary, one way round, or free; a free one is seen a first with a chance of its own, drawn from Beta(a, a). The share of necessary pairs
/// and a are not known beforehand: both are summed over on a grid, weighed by how well they explain all pairs together. The equations are in docs/methods/learning.md.
/// </remarks>
public sealed class ChanceOrder
{
    private readonly List<(double Share, double Evenness, double Weight)> _grid = [];

    /// <param name="pairs">For every two things: how often the one came first, and how often both came off in one strip.</param>
    /// <param name="things">How many things there are. Their pairs are not independent, so together they count as this many, not as their square.</param>
    public ChanceOrder(IEnumerable<(int First, int Times)> pairs, int things)
    {
        var counts = pairs.Where(pair => pair.Times > 0).GroupBy(pair => pair).Select(same => (same.Key.First, same.Key.Times, Pairs: same.Count())).ToList();
        var power = 2.0 / Math.Max(2, things - 1);
        for (var share = 0.025; share < 1; share += 0.05)
        {
            foreach (var evenness in new[] { 0.05, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2 })
            {
                _grid.Add((share, evenness, power * counts.Sum(c => c.Pairs * Math.Log(Likelihood(share, evenness, c.First, c.Times)))));
            }
        }

        var best = _grid.Max(point => point.Weight);
        var all = _grid.Sum(point => Math.Exp(point.Weight - best));
        _grid = [.. _grid.Select(point => point with { Weight = Math.Exp(point.Weight - best) / all })];
    }

    /// <summary>How sure it is, from 0 to 1, that an order is necessary which was kept every one of so many times.</summary>
    public double Necessary(int times) => _grid.Sum(point =>
    {
        var necessary = point.Share / 2;
        return point.Weight * necessary / (necessary + ((1 - point.Share) * Free(point.Evenness, times, times)));
    });

    private static double Likelihood(double share, double evenness, int first, int times) =>
        (first == 0 || first == times ? share / 2 : 0) + ((1 - share) * Free(evenness, first, times));

    /// <summary>The chance of one sequence of so many firsts for a free pair.</summary>
    private static double Free(double evenness, int first, int times)
    {
        var chance = 1.0;
        for (var i = 0; i < times; i++)
        {
            chance *= (evenness + (i < first ? i : i - first)) / ((2 * evenness) + i);
        }

        return chance;
    }
}
