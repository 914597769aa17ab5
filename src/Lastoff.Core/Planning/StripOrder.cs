using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>An order out and an order back that further operations can be put into.</summary>
/// <param name="back">Read forward: the last of it is reversed first. It holds what was done at the start as well.</param>
internal sealed class StripOrder(RoundTrip trip, IReadOnlyList<OneWayStep> outward, IReadOnlyList<OneWayStep> back)
{
    private readonly OperationSet _undone = OperationSet.Of(trip.Ways.Count, trip.Start.Concat(outward.Select(step => step.Operation)));

    /// <summary>The ticks that one operation more adds, with all that must come before it; null when it can never be done.</summary>
    public long? TicksToAdd(int operation, int states, CancellationToken ct)
    {
        if (_undone.Contains(operation))
        {
            return 0;
        }

        var none = OperationSet.Empty(trip.Ways.Count);
        var barred = trip.Pairs.Where(pair => _undone.Contains(pair.Then)).Select(pair => pair.First);
        var allowed = OperationSet.Of(trip.Ways.Count, Enumerable.Range(0, trip.Ways.Count).Except(barred));
        var problem = OneWay.Of(trip, true, _undone, [none.With(operation)], allowed, none, (step, way) => trip.Ways[step][way].Out + trip.Ways[step][way].Back);
        if (problem is null || OneWaySearch.Run(problem, states, tableEntries: 0, null, long.MaxValue, new StaySearches(), ct) is not { HasOrder: true } found)
        {
            return null;
        }

        var (there, home) = (outward.ToList(), back.ToList());
        foreach (var step in found.Order)
        {
            Insert(there, step.Operation, trip.Start, outward: true);
            Insert(home, step.Operation, none, outward: false);
        }

        return TripOrder.Cost(TripOrder.Out(trip, there)!) + TripOrder.Cost(TripOrder.Back(trip, home, none)!)
            - TripOrder.Cost(TripOrder.Out(trip, outward)!) - TripOrder.Cost(TripOrder.Back(trip, back, none)!);
    }

    /// <summary>Puts an operation where, and by the way by which, it costs least. What is undone more closes no way to anything else.</summary>
    private void Insert(List<OneWayStep> order, int operation, OperationSet done, bool outward)
    {
        var (least, place, best) = (long.MaxValue, 0, default(OneWayStep));
        for (var at = 0; at <= order.Count; at++)
        {
            if (trip.Pairs.All(pair => IsInTurn(pair, operation, order, at)))
            {
                for (var way = 0; way < trip.Ways[operation].Count; way++)
                {
                    if (TripOrder.IsOpen(trip.Ways[operation][way], done) && CostAt(order, at, trip.Ways[operation][way], outward) is var cost && cost < least)
                    {
                        (least, place, best) = (cost, at, new OneWayStep(operation, way));
                    }
                }
            }

            done = at < order.Count ? done.With(order[at].Operation) : done;
        }

        order.Insert(place, best);
    }

    /// <summary>Of a pair, the first comes before the second.</summary>
    private static bool IsInTurn(TripPair pair, int operation, List<OneWayStep> order, int at) =>
        (pair.First != operation || order.FindIndex(step => step.Operation == pair.Then) is var then && (then < 0 || at <= then))
        && (pair.Then != operation || order.FindIndex(step => step.Operation == pair.First) < at);

    private long CostAt(List<OneWayStep> order, int at, TripWay way, bool outward)
    {
        int? before = at > 0 ? KeyOf(order[at - 1]) : null;
        int? after = at < order.Count ? KeyOf(order[at]) : null;
        var (from, to) = outward ? (before ?? trip.StartKey, after) : (after ?? trip.StartKey, before);
        return (outward ? way.Out : way.Back) + trip.SetUp[from, way.Key] + (to is { } next ? trip.SetUp[way.Key, next] - trip.SetUp[from, next] : 0);
    }

    private int KeyOf(OneWayStep step) => trip.Ways[step.Operation][step.Way].Key;
}
