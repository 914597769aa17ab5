using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>How long one of two stands idle before a step because something still runs by itself, and what that is.</summary>
/// <remarks>Who waits for the other, or for what the other holds, sees that; what runs by itself has to be said.</remarks>
internal sealed class HandsWaits(OperationNet net, RoundTrip trip, bool outward)
{
    private readonly Dictionary<int, long> _ended = [];
    private readonly long[] _free = new long[2];

    /// <summary>Counts a step, in the order in which they begin.</summary>
    public (long Ticks, string? For) Count(HandsStep step)
    {
        var (wait, words) = (0L, default(string));
        foreach (var lag in trip.Lags)
        {
            var (first, second, ticks) = outward ? (lag.Before, lag.Then, lag.Out) : (lag.Then, lag.Before, lag.Back);
            if (second == step.Operation && _ended.TryGetValue(first, out var ended) && ended + ticks == step.Start + step.SetUp)
            {
                var idle = step.Start - Math.Max(_free[step.Who], ended);
                (wait, words) = idle > wait ? (idle, Running.Words(net, net.Operations[first])) : (wait, words);
            }
        }

        _free[step.Who] = step.End;
        _ended[step.Operation] = step.End;
        return (wait, words);
    }
}
