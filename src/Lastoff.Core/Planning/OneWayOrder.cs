namespace Lastoff.Core.Planning;

/// <summary>What a given order costs in one direction, and whether it can be done at all.</summary>
internal static class OneWayOrder
{
    /// <summary>The ticks of an order, set-ups and last change included, or null when a step cannot be done or a goal stays unmet.</summary>
    public static long? CostOf(OneWay problem, IReadOnlyList<OneWayStep> order)
    {
        var done = (ulong[])problem.Start.Clone();
        var key = problem.StartKey;
        var cost = 0L;
        foreach (var step in order)
        {
            if (FindWay(problem, step) is not { } way
                || Bits.Has(done, step.Operation)
                || problem.IsBarred(step.Operation, done)
                || !problem.IsOpen(way, done))
            {
                return null;
            }

            cost += problem.Change(key, way.Key) + problem.Work(step.Operation, way, done);
            key = way.Key;
            Bits.Add(done, step.Operation);
        }

        return problem.IsMet(done) ? cost + problem.Change(key, problem.EndKey) : null;
    }

    private static OneWayWay? FindWay(OneWay problem, OneWayStep step) =>
        Array.Find(problem.Ways[step.Operation], way => way.Index == step.Way);
}
