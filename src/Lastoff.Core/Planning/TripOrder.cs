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
            var shares = trip.Pairs.Where(pair => pair.Then == operation && done.Contains(pair.First)).ToList();
            steps.Add(clock.Timed(
                new TripStep(operation, at, setUp[key, way.Key], way.Back - shares.Sum(pair => pair.SharedBack)), way.Owed - shares.Sum(pair => pair.SharedOwed)));
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

            var lessOut = Without(trip, outward, operation, trip.Start);
            var lessBack = Without(trip, back, operation, OperationSet.Empty(trip.Ways.Count));
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

    /// <summary>The same order without an operation; a way that asked for it gives place to another with the same key that takes no longer.</summary>
    private static IReadOnlyList<OneWayStep> Without(RoundTrip trip, IReadOnlyList<OneWayStep> order, int operation, OperationSet done)
    {
        var less = new List<OneWayStep>();
        foreach (var step in order.Where(step => step.Operation != operation))
        {
            var ways = trip.Ways[step.Operation];
            var taken = ways[step.Way];
            var open = Enumerable.Range(0, ways.Count).FirstOrDefault(
                way => IsOpen(ways[way], done) && ways[way].Key == taken.Key && ways[way].Out <= taken.Out && ways[way].Back <= taken.Back, step.Way);
            less.Add(step with { Way = IsOpen(taken, done) ? step.Way : open });
            done = done.With(step.Operation);
        }

        return less;
    }

    /// <summary>What a goal, or a step out that can be done in one way only, rests on alone. Pricing every order without it would only find that out the long way.</summary>
    private static OperationSet Needed(RoundTrip trip, IReadOnlyList<OneWayStep> outward, IReadOnlyList<OneWayStep> back)
    {
        var undone = OperationSet.Of(trip.Ways.Count, back.Select(step => step.Operation));
        return OperationSet.Of(
            trip.Ways.Count,
            trip.Goals.Concat(outward.Where(step => trip.Ways[step.Operation].Count == 1).SelectMany(step => trip.Ways[step.Operation][0].Needs))
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
