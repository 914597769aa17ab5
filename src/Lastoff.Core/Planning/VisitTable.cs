namespace Lastoff.Core.Planning;

/// <summary>The least cost of changing between classes of work until all landmarks are done, from any set and class in hand.</summary>
/// <remarks>
/// A problem made easier: only the order that landmarks force counts, and only changes between the classes of this table. It is solved once,
/// from the end: what the last visits can do at most, whichever classes they are to. A visit made as large as it can be is never worse, so each
/// entry stands for all sets that lie within it.
/// </remarks>
internal sealed class VisitTable
{
    private readonly int _words;
    private readonly int[] _classOf;
    private readonly long[,] _change;
    private readonly int _end;
    private readonly ulong[][] _followers;
    private readonly int[][] _work;
    /// <summary>The sets of all entries side by side, for the reading that every state does.</summary>
    private ulong[] _sets = [];
    private readonly List<int> _firsts = [];
    private readonly List<long> _costs = [];
    private long _beyond = long.MaxValue;
    /// <summary>For every landmark the first entry that has it, the last of these first: no entry before it holds a set that has the landmark.</summary>
    private readonly (int Landmark, int First)[] _latest;

    /// <param name="classOf">For every key its class.</param>
    /// <param name="change">Ticks to change from one class to another; no detour is cheaper.</param>
    /// <param name="end">The class to end in, or -1.</param>
    /// <param name="order">The landmarks, those that must follow others first.</param>
    /// <param name="followers">For every landmark, the landmarks that must come after it.</param>
    /// <param name="keys">For every landmark, the keys it can be done with.</param>
    /// <param name="limit">How many entries may be kept; beyond them the bound is the least that any other could cost.</param>
    public VisitTable(int[] classOf, long[,] change, int end, IReadOnlyList<int> order, ulong[][] followers, int[][] keys, int limit)
    {
        _classOf = classOf;
        _change = change;
        _end = end;
        _followers = followers;
        _words = order.Count == 0 ? 0 : followers[order[0]].Length;
        _work = [.. Enumerable.Range(0, change.GetLength(0)).Select(c => order.Where(i => keys[i].Any(key => classOf[key] == c)).ToArray())];
        Fill(order.Count, limit);
        _latest = [.. order.Select(i => (Landmark: i, First: FirstWith(i))).OrderByDescending(at => at.First)];
    }

    /// <param name="left">The landmarks not yet done.</param>
    /// <param name="key">The key in hand, or <see cref="OneWay.AnyKey"/>.</param>
    public long From(ReadOnlySpan<ulong> left, int key)
    {
        var inHand = key == OneWay.AnyKey ? -1 : _classOf[key];
        var least = long.MaxValue;
        for (var i = FirstFor(left); i < _costs.Count && _costs[i] < least; i++)
        {
            if (Bits.IsSubset(left, SetOf(i)))
            {
                least = Math.Min(least, _costs[i] + (inHand < 0 ? 0 : _change[inHand, _firsts[i]]));
            }
        }

        return Math.Min(least, _beyond);
    }

    private int FirstFor(ReadOnlySpan<ulong> left)
    {
        foreach (var (landmark, first) in _latest)
        {
            if (Bits.Has(left, landmark))
            {
                return first;
            }
        }

        return 0;
    }

    private int FirstWith(int landmark)
    {
        var entry = 0;
        while (entry < _costs.Count && !Bits.Has(SetOf(entry), landmark))
        {
            entry++;
        }

        return entry;
    }

    private void Fill(int landmarks, int limit)
    {
        var waiting = new PriorityQueue<(ulong[] Set, int First), (long Cost, int Number)>();
        var number = 0;
        for (var c = 0; c < _work.Length; c++)
        {
            waiting.Enqueue((new ulong[_words], c), (_end < 0 ? 0 : _change[c, _end], number++));
        }

        while (waiting.TryDequeue(out var entry, out var at))
        {
            var set = Visit(entry.Set, entry.First);
            if (IsCovered(set, entry.First, at.Cost))
            {
                continue;
            }

            if (_costs.Count == limit)
            {
                _beyond = at.Cost;
                return;
            }

            if (_sets.Length < (_costs.Count + 1) * _words)
            {
                Array.Resize(ref _sets, 2 * (_costs.Count + 1) * _words);
            }

            set.CopyTo(_sets, _costs.Count * _words);
            _firsts.Add(entry.First);
            _costs.Add(at.Cost);
            if (Bits.Count(set) == landmarks)
            {
                continue;
            }

            for (var c = 0; c < _work.Length; c++)
            {
                if (c != entry.First)
                {
                    waiting.Enqueue((set, c), (at.Cost + _change[c, entry.First], number++));
                }
            }
        }
    }

    /// <summary>What can be done from here to the end when a visit to a class comes before what is in the set.</summary>
    private ulong[] Visit(ulong[] set, int first)
    {
        var more = (ulong[])set.Clone();
        foreach (var i in _work[first])
        {
            if (Bits.IsSubset(_followers[i], more))
            {
                Bits.Add(more, i);
            }
        }

        return more;
    }

    private bool IsCovered(ulong[] set, int first, long cost)
    {
        // The latest entries are the largest.
        for (var i = _costs.Count - 1; i >= 0; i--)
        {
            if (Bits.IsSubset(set, SetOf(i)) && _costs[i] + _change[first, _firsts[i]] <= cost)
            {
                return true;
            }
        }

        return false;
    }

    private ReadOnlySpan<ulong> SetOf(int entry) => _sets.AsSpan(entry * _words, _words);
}
