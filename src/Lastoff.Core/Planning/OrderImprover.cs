namespace Lastoff.Core.Planning;

/// <summary>Makes an order cheaper by swapping two stretches of it that follow each other, wherever nothing in the first must come before something in the second.</summary>
/// <remarks>
/// Swapping stretches turns none of them round, so set-ups that differ by direction stay right, and what it changes is three arcs. When no swap
/// helps, a few are made without regard to cost and it goes on from there. The sequence they are drawn from is fixed.
/// </remarks>
internal sealed class OrderImprover
{
    private const int LongestKick = 8;
    private const int Patience = 400;

    private readonly OrderProblem _problem;
    private readonly ulong[] _blocked;
    private readonly int[] _at;
    private readonly Stack<int> _changed = new();
    private readonly bool[] _isChanged;
    private readonly int[] _spare;
    private readonly int[] _round;
    private ulong _sequence = 0x9E3779B97F4A7C15;

    public OrderImprover(OrderProblem problem, int[] round)
    {
        _problem = problem;
        _round = [.. round];
        _blocked = new ulong[problem.Words];
        _at = new int[problem.Ends + 1];
        _isChanged = new bool[problem.Ends + 1];
        _spare = new int[round.Length];
    }

    /// <summary>The best round after so many kicks.</summary>
    public int[] Run(int kicks, CancellationToken cancel)
    {
        for (var i = _problem.Ends; i >= 0; i--)
        {
            Note(i);
        }

        Improve();
        var (best, bestCost) = ((int[])_round.Clone(), _problem.CostOf(_round));
        var (stand, standCost, idle) = ((int[])_round.Clone(), bestCost, 0);
        for (var kick = 0; kick < kicks; kick++)
        {
            cancel.ThrowIfCancellationRequested();
            var far = ++idle > Patience;
            Kick(far ? 10 : 2);
            Improve();
            var cost = _problem.CostOf(_round);
            if (cost <= standCost || far)
            {
                idle = cost < standCost || far ? 0 : idle;
                _round.CopyTo(stand, 0);
                standCost = cost;
            }
            else
            {
                stand.CopyTo(_round, 0);
            }

            if (cost < bestCost)
            {
                _round.CopyTo(best, 0);
                bestCost = cost;
            }
        }

        return best;
    }

    private void Improve()
    {
        for (var at = 0; at <= _problem.Ends; at++)
        {
            _at[_round[at]] = at;
        }

        while (_changed.TryPop(out var i))
        {
            _isChanged[i] = false;
            while (Forward(_at[i]) || Backward(i == _problem.Ends ? _round.Length - 1 : _at[i]))
            {
            }
        }
    }

    /// <summary>The best swap whose first stretch begins after this place.</summary>
    private bool Forward(int first)
    {
        var best = (Gain: 0L, Middle: 0, Last: 0);
        Array.Clear(_blocked);
        for (var middle = first + 1; middle < _round.Length - 2; middle++)
        {
            Bits.AddAll(_blocked, _problem.After[_round[middle]]);
            for (var last = middle + 1; last < _round.Length - 1 && !Bits.Has(_blocked, _round[last]); last++)
            {
                if (Gain(first, middle, last) is var gain && gain > best.Gain)
                {
                    best = (gain, middle, last);
                }
            }
        }

        return best.Gain > 0 && Swap(first, best.Middle, best.Last);
    }

    /// <summary>The best swap whose second stretch ends before this place.</summary>
    private bool Backward(int end)
    {
        var last = end - 1;
        var best = (Gain: 0L, First: 0, Middle: 0);
        Array.Clear(_blocked);
        for (var middle = last - 1; middle >= 1; middle--)
        {
            Bits.AddAll(_blocked, _problem.Before[_round[middle + 1]]);
            for (var first = middle - 1; first >= 0 && !Bits.Has(_blocked, _round[first + 1]); first--)
            {
                if (Gain(first, middle, last) is var gain && gain > best.Gain)
                {
                    best = (gain, first, middle);
                }
            }
        }

        return best.Gain > 0 && Swap(best.First, best.Middle, last);
    }

    /// <summary>What is saved by swapping the stretch after <paramref name="first"/> up to <paramref name="middle"/> with that up to <paramref name="last"/>.</summary>
    private long Gain(int first, int middle, int last) =>
        _problem.Arc(_round[first], _round[first + 1]) + _problem.Arc(_round[middle], _round[middle + 1]) + _problem.Arc(_round[last], _round[last + 1])
        - _problem.Arc(_round[first], _round[middle + 1]) - _problem.Arc(_round[last], _round[first + 1]) - _problem.Arc(_round[middle], _round[last + 1]);

    private bool Swap(int first, int middle, int last)
    {
        var stretch = _round.AsSpan(first + 1, middle - first);
        stretch.CopyTo(_spare);
        _round.AsSpan(middle + 1, last - middle).CopyTo(_round.AsSpan(first + 1));
        _spare.AsSpan(0, middle - first).CopyTo(_round.AsSpan(first + 1 + last - middle));
        for (var at = first + 1; at <= last; at++)
        {
            _at[_round[at]] = at;
        }

        foreach (var at in (ReadOnlySpan<int>)[first, first + 1, first + last - middle, first + 1 + last - middle, last, last + 1])
        {
            Note(_round[at]);
        }

        return true;
    }

    private void Note(int i)
    {
        if (!_isChanged[i])
        {
            _isChanged[i] = true;
            _changed.Push(i);
        }
    }

    private void Kick(int swaps)
    {
        for (var draw = 0; swaps > 0 && draw < 50; draw++)
        {
            var first = Draw(_problem.Ends - 1);
            var middle = first + 1 + Draw(LongestKick);
            var last = middle + 1 + Draw(LongestKick);
            if (last <= _problem.Ends && IsLegal(first, middle, last))
            {
                Swap(first, middle, last);
                swaps--;
            }
        }
    }

    private bool IsLegal(int first, int middle, int last)
    {
        Array.Clear(_blocked);
        for (var at = first + 1; at <= middle; at++)
        {
            Bits.AddAll(_blocked, _problem.After[_round[at]]);
        }

        for (var at = middle + 1; at <= last; at++)
        {
            if (Bits.Has(_blocked, _round[at]))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>The next number of the sequence (xorshift, George Marsaglia 2003), below a limit.</summary>
    private int Draw(int below)
    {
        _sequence ^= _sequence << 13;
        _sequence ^= _sequence >> 7;
        _sequence ^= _sequence << 17;
        return below <= 0 ? 0 : (int)((_sequence >> 33) % (ulong)below);
    }
}
