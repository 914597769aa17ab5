namespace Lastoff.Core.Planning;

/// <summary>What can sensibly be done next.</summary>
/// <remarks>
/// Where the triangle inequality holds, a landmark that can be done with the key in hand at its least cost is done at once: doing it later is
/// never cheaper and having it done never hurts. So the search branches on which key comes next, and on work that only an alternative asks for.
/// For the same reason no key is gone to past another that lies on the way to it and has such work.
/// </remarks>
internal sealed class OneWayMoves
{
    private readonly OneWay _problem;
    private readonly Landmarks _landmarks;
    private readonly ulong[] _forced;
    private readonly bool _hasOptions;
    private readonly bool[] _mayPullForward;
    private readonly long[] _leastWay;
    private readonly ulong[] _wanted;
    private readonly Stack<int> _open = new();
    private readonly bool[] _keyTaken;

    public OneWayMoves(OneWay problem, Landmarks landmarks)
    {
        _problem = problem;
        _landmarks = landmarks;
        _forced = landmarks.Forced;
        _hasOptions = !Bits.IsSubset(problem.Allowed, _forced);
        _wanted = new ulong[problem.Words];
        _keyTaken = new bool[problem.SetUp.GetLength(0)];
        _leastWay = new long[problem.Operations];
        _mayPullForward = new bool[problem.Operations];
        for (var i = Bits.Next(problem.Allowed, 0); i >= 0; i = Bits.Next(problem.Allowed, i + 1))
        {
            _leastWay[i] = problem.Ways[i].Min(way => way.Cost);
        }

        for (var i = Bits.Next(_forced, 0); i >= 0; i = Bits.Next(_forced, i + 1))
        {
            _mayPullForward[i] = problem.Triangle && (problem.PairedFirst[i] < 0 || Replaces(i, problem.PairedFirst[i]));
        }
    }

    /// <summary>Every move from here that some best order may begin with.</summary>
    public void Find(ReadOnlySpan<ulong> done, int key, OneWayTime time, List<OneWayStep> moves)
    {
        moves.Clear();
        Array.Clear(_keyTaken);
        FillWanted(done);
        for (var i = Bits.Next(_wanted, 0); i >= 0; i = Bits.Next(_wanted, i + 1))
        {
            if (_problem.IsBarred(i, done) || BarsLandmark(i, done))
            {
                continue;
            }

            var ways = _problem.Ways[i];
            for (var w = 0; w < ways.Length; w++)
            {
                if (!_problem.IsOpen(ways[w], done) || IsOutdone(ways, w, done))
                {
                    continue;
                }

                if (IsPulledForward(i, ways[w], done, time))
                {
                    if (_keyTaken[ways[w].Key])
                    {
                        continue;
                    }

                    _keyTaken[ways[w].Key] = true;
                }

                moves.Add(new OneWayStep(i, w));
            }
        }

        if (key != OneWay.AnyKey)
        {
            moves.RemoveAll(move => LeavesWorkOnTheWay(key, _problem.Ways[move.Operation][move.Way].Key));
        }
    }

    /// <summary>Whether a third key has work to pull forward and going to it first makes no set-up dearer. Of keys on the way to each other one stays.</summary>
    private bool LeavesWorkOnTheWay(int from, int to)
    {
        for (var via = 0; via < _keyTaken.Length; via++)
        {
            if (_keyTaken[via]
                && via != to
                && _problem.SetUp[from, via] + _problem.SetUp[via, to] == _problem.SetUp[from, to]
                && (_problem.SetUp[from, via] < _problem.SetUp[from, to] || via < to))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Does a move and whatever follows from it at once; returns its ticks.</summary>
    public long Apply(Span<ulong> done, ref int key, OneWayStep move, OneWayTime time, List<OneWayStep>? order = null)
    {
        var way = _problem.Ways[move.Operation][move.Way];
        var cost = _problem.Do(move, way, done, key, time);
        key = way.Key;
        Bits.Add(done, move.Operation);
        order?.Add(move);
        return cost + PullForward(done, key, time, order);
    }

    /// <summary>Does every landmark that the key in hand does at its least cost; returns the ticks.</summary>
    public long PullForward(Span<ulong> done, int key, OneWayTime time, List<OneWayStep>? order = null)
    {
        var cost = 0L;
        if (!_problem.Triangle || key == OneWay.AnyKey)
        {
            return cost;
        }

        for (var moved = true; moved;)
        {
            moved = false;
            for (var word = 0; word < done.Length; word++)
            {
                for (var rest = _forced[word] & ~done[word]; rest != 0; rest &= rest - 1)
                {
                    var i = (word << 6) + System.Numerics.BitOperations.TrailingZeroCount(rest);
                    var ways = _problem.Ways[i];
                    for (var w = 0; w < ways.Length; w++)
                    {
                        if (ways[w].Key == key && IsPulledForward(i, ways[w], done, time) && _problem.IsOpen(ways[w], done) && !_problem.IsBarred(i, done))
                        {
                            cost += _problem.Do(new OneWayStep(i, w), ways[w], done, key, time);
                            Bits.Add(done, i);
                            order?.Add(new OneWayStep(i, w));
                            moved = true;
                            break;
                        }
                    }
                }
            }
        }

        return cost;
    }

    private bool IsPulledForward(int operation, OneWayWay way, ReadOnlySpan<ulong> done, OneWayTime time) =>
        DelaysNothing(operation, done, time)
        && way.Cost == _leastWay[operation]
        && (_mayPullForward[operation]
            || (_problem.Triangle && Bits.Has(_forced, operation) && Bits.Has(done, _problem.PairedFirst[operation])));

    /// <summary>Whether it need not wait, and whatever is yet to be started and then runs by itself needs it first.</summary>
    private bool DelaysNothing(int operation, ReadOnlySpan<ulong> done, OneWayTime time)
    {
        foreach (var starter in _problem.Runs.Starters)
        {
            if (!Bits.Has(done, starter) && !Bits.Has(_landmarks.UpTo(starter), operation))
            {
                return false;
            }
        }

        return _problem.Runs.ReadyAt(operation, time.Ended) <= time.Clock;
    }

    /// <summary>Whether doing the second of a pair leaves nothing that the first would still be wanted for.</summary>
    private bool Replaces(int then, int first)
    {
        if (!Bits.Has(_problem.Allowed, first))
        {
            return true;
        }

        if (Bits.Has(_forced, first) || _leastWay[first] < _problem.Shared[then])
        {
            return false;
        }

        return _problem.Goals.All(Covers) && _problem.Ways.All(ways => ways.All(way => !Bits.Has(way.Must, first) && way.OneOf.All(Covers)));

        bool Covers(ulong[] set) => !Bits.Has(set, first) || Bits.Has(set, then);
    }

    private bool BarsLandmark(int operation, ReadOnlySpan<ulong> done) =>
        _problem.PairedFirst[operation] is >= 0 and var first && Bits.Has(_forced, first) && !Bits.Has(done, first);

    /// <summary>Whether another open way of the same operation has the same key and costs no more.</summary>
    private bool IsOutdone(OneWayWay[] ways, int way, ReadOnlySpan<ulong> done)
    {
        for (var other = 0; other < ways.Length; other++)
        {
            if (other != way
                && ways[other].Key == ways[way].Key
                && (ways[other].Cost < ways[way].Cost || (ways[other].Cost == ways[way].Cost && other < way))
                && _problem.IsOpen(ways[other], done))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>What is still of use: an unmet goal, and whatever a way that is not yet open to it still asks for.</summary>
    private void FillWanted(ReadOnlySpan<ulong> done)
    {
        for (var i = 0; i < _wanted.Length; i++)
        {
            _wanted[i] = _forced[i] & ~done[i];
        }

        if (!_hasOptions)
        {
            return;
        }

        Array.Clear(_wanted);
        foreach (var goal in _problem.Goals)
        {
            WantUnmet(goal, done);
        }

        for (var i = Bits.Next(_forced, 0); i >= 0; i = Bits.Next(_forced, i + 1))
        {
            WantOne(i, done);
        }

        while (_open.TryPop(out var operation))
        {
            foreach (var way in _problem.Ways[operation])
            {
                if (_problem.IsOpen(way, done))
                {
                    continue;
                }

                for (var i = Bits.Next(way.Must, 0); i >= 0; i = Bits.Next(way.Must, i + 1))
                {
                    WantOne(i, done);
                }

                foreach (var set in way.OneOf)
                {
                    WantUnmet(set, done);
                }
            }
        }
    }

    private void WantUnmet(ulong[] set, ReadOnlySpan<ulong> done)
    {
        if (!Bits.Overlap(set, done))
        {
            for (var i = Bits.Next(set, 0); i >= 0; i = Bits.Next(set, i + 1))
            {
                WantOne(i, done);
            }
        }
    }

    private void WantOne(int operation, ReadOnlySpan<ulong> done)
    {
        if (!Bits.Has(done, operation) && !Bits.Has(_wanted, operation))
        {
            Bits.Add(_wanted, operation);
            _open.Push(operation);
        }
    }
}
