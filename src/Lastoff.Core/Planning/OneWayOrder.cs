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
        var time = new OneWayTime(problem.Runs);
        foreach (var step in order)
        {
            if (FindWay(problem, step) is not { } way
                || Bits.Has(done, step.Operation)
                || problem.IsBarred(step.Operation, done)
                || !problem.IsOpen(way, done))
            {
                return null;
            }

            cost += problem.Do(step, way, done, key, time);
            key = way.Key;
            Bits.Add(done, step.Operation);
        }

        return problem.IsMet(done) ? cost + problem.Change(key, problem.EndKey) : null;
    }

    /// <summary>The order of stays as steps, each by its cheapest open way with that tool at that place; null when some step has none.</summary>
    public static IReadOnlyList<OneWayStep>? Of(OneWay problem, StayProblem stays, StayOrder order)
    {
        var steps = new List<OneWayStep>();
        var done = (ulong[])problem.Start.Clone();
        foreach (var (landmark, tool, place) in order.Steps())
        {
            if (stays.Operations[landmark].Any(operation => Bits.Has(done, operation)))
            {
                continue;
            }

            var open = stays.Operations[landmark].SelectMany(operation => problem.Ways[operation]
                .Where(way => stays.ToolOf(way.Key) == tool && stays.PlaceOf(way.Key) == place && problem.IsOpen(way, done)).Select(way => (Operation: operation, Way: way)));
            if (open.OrderBy(one => one.Way.Cost).Select(one => ((int Operation, OneWayWay Way)?)one).FirstOrDefault() is not { } step)
            {
                return null;
            }

            steps.Add(new OneWayStep(step.Operation, step.Way.Index));
            Bits.Add(done, step.Operation);
        }

        return steps;
    }

    private static OneWayWay? FindWay(OneWay problem, OneWayStep step) =>
        Array.Find(problem.Ways[step.Operation], way => way.Index == step.Way);
}
