namespace Lastoff.Core.Joints;

/// <summary>Which bolt next: crosswise on a circle, from the middle outwards elsewhere. Loosening is the same order reversed.</summary>
public static class TighteningOrder
{
    /// <summary>The holes of a pattern, by place in its list, in the order to tighten.</summary>
    public static IReadOnlyList<int> Of(HolePattern pattern) => pattern.Shape == PatternShape.Circle ? Crosswise(pattern.Clockwise()) : Outwards(pattern);

    /// <summary>The order of the last round: from bolt to bolt on a circle, elsewhere as before.</summary>
    public static IReadOnlyList<int> Round(HolePattern pattern) => pattern.Shape == PatternShape.Circle ? pattern.Clockwise() : Of(pattern);

    public static IReadOnlyList<int> Loosening(HolePattern pattern) => [.. Of(pattern).Reverse()];

    // The common pairs rule: each bolt is followed by the one opposite, and each pair by the one that halves the widest gap left.
    private static int[] Crosswise(IReadOnlyList<int> clockwise)
    {
        var n = clockwise.Count;
        return n % 2 == 0
            ? [.. Spread(n / 2).SelectMany(i => new[] { clockwise[i], clockwise[i + n / 2] })]
            : [.. Spread(n).Select(i => clockwise[i])];
    }

    /// <summary>Places on a ring, each as far as can be from those already taken, then from the last, then the first clockwise.</summary>
    private static List<int> Spread(int places)
    {
        var taken = new List<int> { 0 };
        var left = Enumerable.Range(1, places - 1).ToList();
        while (left.Count > 0)
        {
            var next = left.OrderByDescending(i => taken.Min(t => Gap(i, t, places))).ThenByDescending(i => Gap(i, taken[^1], places)).ThenBy(i => i).First();
            taken.Add(next);
            left.Remove(next);
        }

        return taken;
    }

    private static int Gap(int a, int b, int places) => Math.Min(Math.Abs(a - b), places - Math.Abs(a - b));

    /// <summary>Never nearer to the middle than the bolt before; among equals the one farthest from it, so that the sides take turns.</summary>
    private static List<int> Outwards(HolePattern pattern)
    {
        var left = Enumerable.Range(0, pattern.Holes.Count).ToList();
        var done = new List<int>();
        while (left.Count > 0)
        {
            var nearest = left.Min(pattern.FromCentre);
            var ring = left.Where(i => pattern.FromCentre(i) <= nearest + 1e-6 * (1 + nearest));
            var next = done.Count == 0 ? ring.First() : ring.MaxBy(i => Math.Round(pattern.Distance(i, done[^1]), 6));
            done.Add(next);
            left.Remove(next);
        }

        return done;
    }
}
