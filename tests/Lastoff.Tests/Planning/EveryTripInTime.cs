using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Tests.Planning;

/// <summary>The least elapsed time of a trip with waits, by living through every order of every set, way by way.</summary>
internal sealed class EveryTripInTime
{
    private readonly RoundTrip _trip;
    private readonly Dictionary<OperationSet, long> _out = [];
    private readonly Dictionary<OperationSet, long> _back = [];

    private EveryTripInTime(RoundTrip trip) => _trip = trip;

    public static long Best(RoundTrip trip)
    {
        var every = new EveryTripInTime(trip);
        every.Go([], trip.Start, every._out, order => every.Live(order, outward: true));
        every.Go([], OperationSet.Empty(trip.Ways.Count), every._back, order => every.Live([.. order.Reverse()], outward: false));
        return every._out.Where(pair => trip.Goals.All(goal => goal.Overlaps(pair.Key)) && every._back.ContainsKey(pair.Key)).Min(pair => pair.Value + every._back[pair.Key]);
    }

    private void Go(IReadOnlyList<(int Operation, TripWay Way)> order, OperationSet done, Dictionary<OperationSet, long> best, Func<IReadOnlyList<(int, TripWay)>, long> time)
    {
        best[done] = Math.Min(best.GetValueOrDefault(done, long.MaxValue), time(order));
        for (var x = 0; x < _trip.Ways.Count; x++)
        {
            foreach (var way in _trip.Ways[x].Where(way => !done.Contains(x) && way.Needs.All(need => need.Overlaps(done))))
            {
                Go([.. order, (x, way)], done.With(x), best, time);
            }
        }
    }

    private long Live(IReadOnlyList<(int Operation, TripWay Way)> order, bool outward)
    {
        var (now, key) = (0L, _trip.StartKey);
        var ended = new Dictionary<int, long>();
        foreach (var (x, way) in order)
        {
            now += _trip.SetUp[key, way.Key];
            foreach (var lag in _trip.Lags)
            {
                if ((outward ? lag.Then : lag.Before) == x && ended.TryGetValue(outward ? lag.Before : lag.Then, out var from))
                {
                    now = Math.Max(now, from + (outward ? lag.Out : lag.Back));
                }
            }

            now += outward ? way.Out : way.Back;
            (key, ended[x]) = (way.Key, now);
        }

        return now;
    }
}
