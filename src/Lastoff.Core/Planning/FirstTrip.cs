using System.Globalization;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>A good trip at once, for a device that searches slowly: a short look out, another back over what that undoes, and a plain bound.</summary>
public static class FirstTrip
{
    /// <summary>Enough for the narrowest beam; ten times as many find a better order only now and then.</summary>
    private const int States = 16;

    /// <summary>The trip, or null where it has to be searched for: what is done already was done out of order, or the goals cannot be met.</summary>
    /// <exception cref="OperationCanceledException">The planning was called off.</exception>
    public static Trip? Of(RoundTrip trip, CancellationToken cancel = default)
    {
        var none = OperationSet.Empty(trip.Ways.Count);
        var start = TripOrder.Legal(trip, trip.Start);
        var barred = trip.Pairs.Where(pair => trip.Start.Contains(pair.Then)).Select(pair => pair.First);
        var allowed = OperationSet.Of(trip.Ways.Count, Enumerable.Range(0, trip.Ways.Count).Except(barred)).Union(trip.Start);
        if (start.Count < trip.Start.Count
            || Look(Outward((operation, way) => trip.Ways[operation][way].Out + trip.Ways[operation][way].Back), null) is not { } outward)
        {
            return null;
        }

        IReadOnlyList<OneWayStep> home = [.. start, .. outward];
        var undone = OperationSet.Of(trip.Ways.Count, home.Select(step => step.Operation));
        var (there, back) = TripOrder.Trim(trip, outward, Look(Back(undone, undone.Select(none.With)), home) ?? home, none);
        if (TripOrder.Out(trip, there) is not { } stepsOut || TripOrder.Back(trip, back, none) is not { } stepsBack)
        {
            return null;
        }

        if (TripOrder.Back(trip, [.. start, .. there], none) is { } reversed && TripOrder.Cost(reversed) < TripOrder.Cost(stepsBack))
        {
            stepsBack = reversed;
        }

        var cost = TripOrder.Cost(stepsOut) + TripOrder.Cost(stepsBack);
        var bound = Math.Min(cost, Least(Outward((operation, way) => trip.Ways[operation][way].Out)) + Least(Back(allowed, trip.Goals.Concat(trip.Start.Select(none.With)))));
        return new Trip(stepsOut, stepsBack, cost, bound, bound == cost ? null : string.Create(CultureInfo.InvariantCulture,
            $"This is the first plan found; one up to {100.0 * (cost - bound) / cost:0.0} % shorter may exist."));

        OneWay? Outward(Func<int, int, long?> ticks) => OneWay.Of(trip, true, trip.Start, trip.Goals, allowed, none, ticks);

        OneWay? Back(OperationSet among, IEnumerable<OperationSet> goals) =>
            OneWay.Of(trip, false, none, goals, among, none, (operation, way) => trip.Ways[operation][way].Back);

        IReadOnlyList<OneWayStep>? Look(OneWay? problem, IReadOnlyList<OneWayStep>? known) =>
            problem is not null && OneWaySearch.Run(problem, States, tableEntries: 0, known, long.MaxValue, new StaySearches(), cancel) is { HasOrder: true } found ? found.Order : null;
    }

    private static long Least(OneWay? problem) =>
        problem is null ? 0 : new OneWayBound(problem, new Landmarks(problem), entries: 0).From(problem.Start, problem.StartKey);
}
