using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>Prices and checks a given order out and back against the trip itself, and strips it of what it does not need.</summary>
internal static class TripOrder
{
    /// <summary>The steps out with their ticks, or null when one of them cannot be done.</summary>
    public static IReadOnlyList<TripStep>? Out(RoundTrip trip, IReadOnlyList<OneWayStep> order)
    {
        var done = trip.Start;
        var key = trip.StartKey;
        var steps = new List<TripStep>();
        var clock = new TripClock(trip, outward: true);
        foreach (var (operation, at) in order)
        {
            var way = trip.Ways[operation][at];
            if (done.Contains(operation) || IsBarred(trip, done, operation) || !IsOpen(way, done))
            {
                return null;
            }

            var shared = trip.Pairs.Where(pair => pair.Then == operation && done.Contains(pair.First)).Sum(pair => pair.SharedOut);
            steps.Add(clock.Timed(new TripStep(operation, at, trip.SetUp[key, way.Key], way.Out - shared)));
            key = way.Key;
            done = done.With(operation);
        }

        return steps;
    }

    /// <summary>The steps back with their ticks, or null when one of them would leave something hanging.</summary>
    /// <param name="order">Read forward: the last of it is reversed first.</param>
    /// <param name="free">What was done out of order: it needs nothing, and nothing that was done in order rests on it.</param>
    public static IReadOnlyList<TripStep>? Back(RoundTrip trip, IReadOnlyList<OneWayStep> order, OperationSet free)
    {
        var done = OperationSet.Empty(trip.Ways.Count);
        foreach (var (operation, at) in order)
        {
            if (done.Contains(operation) || IsBarred(trip, done, operation) || !(free.Contains(operation) || IsOpen(trip.Ways[operation][at], done.Except(free))))
            {
                return null;
            }

            done = done.With(operation);
        }

        var key = trip.StartKey;
        var setUp = trip.BackSetUp ?? trip.SetUp;
        var steps = new List<TripStep>();
        var clock = new TripClock(trip, outward: false);
        foreach (var (operation, at) in order.Reverse())
        {
            var way = trip.Ways[operation][at];
            done = done.Without(operation);
            var shared = trip.Pairs.Where(pair => pair.Then == operation && done.Contains(pair.First)).Sum(pair => pair.SharedBack);
            steps.Add(clock.Timed(new TripStep(operation, at, setUp[key, way.Key], way.Back - shared)));
            key = way.Key;
        }

        return steps;
    }

    public static long Cost(IEnumerable<TripStep> steps) => steps.Sum(step => step.SetUp + step.Work + step.Wait);

    /// <summary>Takes out, one by one, whatever both ways can do without at no more cost.</summary>
    public static (IReadOnlyList<OneWayStep> Out, IReadOnlyList<OneWayStep> Back) Trim(
        RoundTrip trip, IReadOnlyList<OneWayStep> outward, IReadOnlyList<OneWayStep> back, OperationSet free)
    {
        var least = Out(trip, outward) is { } there && Back(trip, back, free) is { } home ? Cost(there) + Cost(home) : 0;
        var needed = Needed(trip, outward, back);
        for (var i = outward.Count - 1; i >= 0; i--)
        {
            var operation = outward[i].Operation;
            if (needed.Contains(operation))
            {
                continue;
            }

            List<OneWayStep> lessOut = [.. outward.Where(step => step.Operation != operation)];
            List<OneWayStep> lessBack = [.. back.Where(step => step.Operation != operation)];
            var undone = OperationSet.Of(trip.Ways.Count, lessBack.Select(step => step.Operation));
            if (trip.Goals.All(goal => goal.Overlaps(undone))
                && Out(trip, lessOut) is { } stepsOut
                && Back(trip, lessBack, free) is { } stepsBack
                && Cost(stepsOut) + Cost(stepsBack) is var cost && cost <= least)
            {
                (outward, back, i, least) = (lessOut, lessBack, lessOut.Count, cost);
                needed = Needed(trip, outward, back);
            }
        }

        return (outward, back);
    }

    /// <summary>What a goal or a step out rests on alone. Pricing every order without it would only find that out the long way.</summary>
    private static OperationSet Needed(RoundTrip trip, IReadOnlyList<OneWayStep> outward, IReadOnlyList<OneWayStep> back)
    {
        var undone = OperationSet.Of(trip.Ways.Count, back.Select(step => step.Operation));
        return OperationSet.Of(
            trip.Ways.Count,
            trip.Goals.Concat(outward.SelectMany(step => trip.Ways[step.Operation][step.Way].Needs))
                .Select(need => need.Intersect(undone)).Where(left => left.Count == 1).Select(left => left.First()));
    }

    /// <summary>All of a set that can be done in some order, in such an order, each by its first way that is open.</summary>
    public static IReadOnlyList<OneWayStep> Legal(RoundTrip trip, OperationSet among)
    {
        var possible = OperationSet.Of(trip.Ways.Count, Order(among, []).Select(step => step.Operation));
        return Order(possible, trip.Pairs.Where(pair => possible.Contains(pair.First) && possible.Contains(pair.Then)));

        List<OneWayStep> Order(OperationSet waiting, IEnumerable<TripPair> pairs)
        {
            var order = new List<OneWayStep>();
            var done = OperationSet.Empty(trip.Ways.Count);
            for (var before = -1; before != order.Count;)
            {
                before = order.Count;
                foreach (var operation in waiting.Except(done))
                {
                    var way = Enumerable.Range(0, trip.Ways[operation].Count).FirstOrDefault(at => IsOpen(trip.Ways[operation][at], done), -1);
                    if (way >= 0 && pairs.All(pair => pair.Then != operation || done.Contains(pair.First)))
                    {
                        order.Add(new OneWayStep(operation, way));
                        done = done.With(operation);
                    }
                }
            }

            return order;
        }
    }

    public static bool IsOpen(TripWay way, OperationSet done) => way.Needs.All(need => need.Overlaps(done));

    private static bool IsBarred(RoundTrip trip, OperationSet done, int operation) =>
        trip.Pairs.Any(pair => pair.First == operation && done.Contains(pair.Then));
}
