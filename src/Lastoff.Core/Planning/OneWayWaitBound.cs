namespace Lastoff.Core.Planning;

/// <summary>What it still costs at least because something has to run by itself in between: all that must come before, the run, all that must come after.</summary>
internal sealed class OneWayWaitBound
{
    private readonly OneWay _problem;
    private readonly Landmarks _landmarks;
    private readonly long[] _ticks;
    private readonly long[] _charge;
    private readonly (int Starter, long Ticks, long After)[] _waits;
    private readonly int[] _then;

    /// <param name="cheapest">The least that each operation is charged with.</param>
    public OneWayWaitBound(OneWay problem, Landmarks landmarks, long[] cheapest)
    {
        _problem = problem;
        _landmarks = landmarks;
        _ticks = new long[problem.Operations];
        _charge = new long[problem.Operations];
        for (var i = Bits.Next(problem.Allowed, 0); i >= 0; i = Bits.Next(problem.Allowed, i + 1))
        {
            var charge = problem.Ways[i][0].Cost - problem.Ways[i][0].Ticks;
            _ticks[i] = cheapest[i] - charge;
            var least = charge - problem.SharedOwed[i];
            _charge[i] = Bits.Has(landmarks.Forced, i) ? least : Math.Min(0, least);
        }

        var forced = problem.Runs.Waits.Where(wait => Bits.Has(landmarks.Forced, wait.Then) && Bits.Has(landmarks.Forced, problem.Runs.Starters[wait.Starter])).ToArray();
        _waits = [.. forced.Select(wait => (wait.Starter, wait.Ticks, After(wait.Then)))];
        _then = [.. forced.Select(wait => wait.Then)];
    }

    public long From(ReadOnlySpan<ulong> done, OneWayTime time)
    {
        var most = 0L;
        for (var i = 0; i < _waits.Length; i++)
        {
            if (!Bits.Has(done, _then[i]))
            {
                var (starter, ticks, after) = _waits[i];
                var until = Bits.Has(done, _problem.Runs.Starters[starter])
                    ? Math.Max(0, time.Ended[starter] + ticks - time.Clock)
                    : Before(_problem.Runs.Starters[starter], done) + ticks;
                most = Math.Max(most, until + after);
            }
        }

        if (most > 0)
        {
            for (var i = Bits.Next(_problem.Allowed, 0); i >= 0; i = Bits.Next(_problem.Allowed, i + 1))
            {
                most += Bits.Has(done, i) ? 0 : _charge[i];
            }
        }

        return most;
    }

    /// <summary>An operation, and what must be done before it and is not.</summary>
    private long Before(int operation, ReadOnlySpan<ulong> done)
    {
        var ticks = 0L;
        var before = _landmarks.UpTo(operation);
        for (var i = Bits.Next(before, 0); i >= 0; i = Bits.Next(before, i + 1))
        {
            ticks += Bits.Has(done, i) ? 0 : _ticks[i];
        }

        return ticks;
    }

    /// <summary>An operation, and what cannot be done before it.</summary>
    private long After(int operation)
    {
        var ticks = 0L;
        for (var i = Bits.Next(_landmarks.Forced, 0); i >= 0; i = Bits.Next(_landmarks.Forced, i + 1))
        {
            ticks += Bits.Has(_landmarks.UpTo(i), operation) ? _ticks[i] : 0;
        }

        return ticks;
    }
}
