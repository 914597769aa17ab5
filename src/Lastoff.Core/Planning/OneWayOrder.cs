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
            var operation = stays.Operation[landmark];
            if (problem.Ways[operation].Where(way => stays.ToolOf(way.Key) == tool && stays.PlaceOf(way.Key) == place && problem.IsOpen(way, done)).MinBy(way => way.Cost) is not { } way)
            {
                return null;
            }

            steps.Add(new OneWayStep(operation, way.Index));
            Bits.Add(done, operation);
        }

        return steps;
    }

    private static OneWayWay? FindWay(OneWay problem, OneWayStep step) =>
        Array.Find(problem.Ways[step.Operation], way => way.Index == step.Way);
}
