using System.Numerics;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>The least ticks of changes still to be paid, when only the order that always holds and one kind of change count.</summary>
/// <remarks>
/// Filled from the end backwards, as long as entries last: an entry is a set that can be done from some stance on for some cost. A set made as large
/// as it can be is never worse, so an entry serves every set within it. Once the entries are used up, what no entry holds costs at least
/// what the next would have.
/// </remarks>
internal sealed class ChangeTable
{
    private readonly Course _course;
    private readonly Stances _stances;
    private readonly ulong[][] _after;
    private readonly List<(ulong[] Set, long Cost)>[] _entries;
    private readonly long _beyond = long.MaxValue;

    public ChangeTable(Course course, Stances stances, ulong[][] after, int entries)
    {
        (_course, _stances, _after) = (course, stances, after);
        _entries = [.. Enumerable.Range(0, stances.Count).Select(_ => new List<(ulong[], long)>())];
        var open = new PriorityQueue<(int Stance, ulong[] Set), (long Cost, int Number)>();
        var number = 0;
        for (var stance = 0; stance < stances.Count; stance++)
        {
            open.Enqueue((stance, Grown(new ulong[course.Words], stance)), (0, number++));
        }

        while (open.TryDequeue(out var entry, out var at))
        {
            if (_entries[entry.Stance].Exists(known => Bits.IsSubset(entry.Set, known.Set)))
            {
                continue;
            }

            if (entries-- <= 0)
            {
                _beyond = at.Cost;
                return;
            }

            _entries[entry.Stance].Add((entry.Set, at.Cost));
            foreach (var (from, ticks) in stances.Before(entry.Stance))
            {
                open.Enqueue((from, Grown(entry.Set, from)), (at.Cost + ticks, number++));
            }
        }
    }

    /// <param name="left">What is still to be begun.</param>
    public long From(int stance, ReadOnlySpan<ulong> left)
    {
        foreach (var (set, cost) in _entries[stance])
        {
            if (Bits.IsSubset(left, set))
            {
                return cost;
            }
        }

        return _beyond;
    }

    /// <summary>For every operation that is sure to be begun, those sure ones that always come after it.</summary>
    public static ulong[][] After(Course course)
    {
        var after = new ulong[course.Size][];
        for (var i = 0; i < course.Size; i++)
        {
            after[i] = new ulong[course.Words];
        }

        for (var j = Bits.Next(course.Forced, 0); j >= 0; j = Bits.Next(course.Forced, j + 1))
        {
            for (var i = Bits.Next(course.Before[j], 0); i >= 0; i = Bits.Next(course.Before[j], i + 1))
            {
                Bits.Add(after[i], j);
            }
        }

        return after;
    }

    /// <summary>The set with all that can still come before it without a change.</summary>
    private ulong[] Grown(ulong[] set, int stance)
    {
        var grown = (ulong[])set.Clone();
        for (var moved = true; moved;)
        {
            moved = false;
            for (var word = 0; word < grown.Length; word++)
            {
                for (var rest = _course.Forced[word] & ~grown[word]; rest != 0; rest &= rest - 1)
                {
                    var i = (word << 6) + BitOperations.TrailingZeroCount(rest);
                    if (_stances.Serves(stance, i) && Bits.IsSubset(_after[i], grown))
                    {
                        Bits.Add(grown, i);
                        moved = true;
                    }
                }
            }
        }

        return grown;
    }
}
