namespace Lastoff.Core.Planning;

/// <summary>Runs through the steps of one direction and says how long each must wait for what runs by itself.</summary>
internal sealed class TripClock(RoundTrip trip, bool outward)
{
    private readonly Dictionary<int, long> _ended = [];
    private long _now;

    /// <summary>The step with its wait: what is left of it after the set-up, which is done meanwhile.</summary>
    /// <param name="owed">Ticks of its work that come later.</param>
    public TripStep Timed(TripStep step, long owed = 0)
    {
        var ready = _now + step.SetUp;
        foreach (var lag in trip.Lags)
        {
            var (first, second, ticks) = outward ? (lag.Before, lag.Then, lag.Out) : (lag.Then, lag.Before, lag.Back);
            if (second == step.Operation && ticks > 0 && _ended.TryGetValue(first, out var ended))
            {
                ready = Math.Max(ready, ended + ticks);
            }
        }

        var wait = ready - _now - step.SetUp;
        _now = ready + step.Work - owed;
        _ended[step.Operation] = _now;
        return step with { Wait = wait };
    }
}
