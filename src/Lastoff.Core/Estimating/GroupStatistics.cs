namespace Lastoff.Core.Estimating;

/// <summary>The mean of some values and how far they lie from it.</summary>
public sealed record GroupStatistics(int Count, double Mean, double SumOfSquares)
{
    /// <summary>The sample standard deviation; needs two values.</summary>
    public double Deviation => Math.Sqrt(SumOfSquares / (Count - 1));

    /// <exception cref="ArgumentException">There is no value.</exception>
    public static GroupStatistics Of(IReadOnlyList<double> values)
    {
        if (values.Count == 0)
        {
            throw new ArgumentException("A mean needs a value.", nameof(values));
        }

        // Twice over: the second sum takes back what the first lost to rounding.
        var first = values.Average();
        var mean = first + (values.Sum(value => value - first) / values.Count);
        var off = values.Sum(value => value - mean);
        return new GroupStatistics(values.Count, mean, values.Sum(value => (value - mean) * (value - mean)) - (off * off / values.Count));
    }
}

/// <summary>How much of the scatter of values lies between their groups, and how much within: the one-way analysis of variance.</summary>
public sealed record GroupScatter(int Groups, int Count, double Between, double Within)
{
    public double WithinVariance => Within / (Count - Groups);

    public double F => Between / (Groups - 1) / WithinVariance;

    public double RSquared => Between / (Between + Within);

    /// <exception cref="ArgumentException">There are fewer than two groups, an empty one, or no more values than groups.</exception>
    public static GroupScatter Of(IReadOnlyList<IReadOnlyList<double>> groups)
    {
        if (groups.Count < 2 || groups.Sum(group => group.Count) <= groups.Count)
        {
            throw new ArgumentException("Scatter between and within groups needs two groups and more values than groups.", nameof(groups));
        }

        List<GroupStatistics> each = [.. groups.Select(GroupStatistics.Of)];
        var all = GroupStatistics.Of([.. groups.SelectMany(group => group)]);
        return new GroupScatter(groups.Count, all.Count, each.Sum(g => g.Count * (g.Mean - all.Mean) * (g.Mean - all.Mean)), each.Sum(g => g.SumOfSquares));
    }
}
