namespace Lastoff.Core.Planning;

/// <summary>What runs by itself in one direction: after some operations, called starters, others have to wait for a time.</summary>
internal sealed class OneWayRuns
{
    /// <summary>A starter that is not done in this direction, or so long ago that nothing waits for it.</summary>
    public const long LongAgo = long.MinValue / 4;

    public static readonly OneWayRuns None = new();

    private readonly List<int> _starters = [];
    private readonly List<(int Starter, int Then, long Ticks)> _waits = [];

    private OneWayRuns()
    {
    }

    public OneWayRuns(RoundTrip trip, bool outward, ulong[] allowed)
    {
        // Read backwards, what is reversed last comes first: the same operation starts the wait in both directions.
        foreach (var lag in trip.Lags)
        {
            if ((outward ? lag.Out : lag.Back) is > 0 and var ticks && Bits.Has(allowed, lag.Before) && Bits.Has(allowed, lag.Then))
            {
                _waits.Add((StarterOf(lag.Before), lag.Then, ticks));
            }
        }

        int StarterOf(int operation)
        {
            if (!_starters.Contains(operation))
            {
                _starters.Add(operation);
            }

            return _starters.IndexOf(operation);
        }
    }

    public IReadOnlyList<int> Starters => _starters;

    public IReadOnlyList<(int Starter, int Then, long Ticks)> Waits => _waits;

    /// <summary>The clock at which an operation may begin.</summary>
    public long ReadyAt(int operation, ReadOnlySpan<long> ended)
    {
        var ready = LongAgo;
        foreach (var (starter, then, ticks) in _waits)
        {
            if (then == operation)
            {
                ready = Math.Max(ready, ended[starter] + ticks);
            }
        }

        return ready;
    }

    /// <summary>Notes that an operation ended at this clock.</summary>
    public void Note(int operation, long clock, Span<long> ended)
    {
        if (_starters.IndexOf(operation) is >= 0 and var starter)
        {
            ended[starter] = clock;
        }
    }

    /// <summary>Whether whatever waits can begin by one account as soon as by the other.</summary>
    public bool IsNoLater(ReadOnlySpan<long> ended, ReadOnlySpan<long> other, long otherClock, ReadOnlySpan<ulong> done)
    {
        foreach (var (starter, then, ticks) in _waits)
        {
            if (!Bits.Has(done, then) && ended[starter] + ticks > Math.Max(otherClock, other[starter] + ticks))
            {
                return false;
            }
        }

        return true;
    }
}

/// <summary>How far the clock is, and when each starter ended.</summary>
internal sealed class OneWayTime
{
    public OneWayTime(OneWayRuns runs)
    {
        Ended = new long[runs.Starters.Count];
        Array.Fill(Ended, OneWayRuns.LongAgo);
    }

    public long Clock { get; set; }

    public long[] Ended { get; }

    public void Set(long clock, ReadOnlySpan<long> ended)
    {
        Clock = clock;
        ended.CopyTo(Ended);
    }
}
