using System.Runtime.InteropServices;

namespace Lastoff.Core.Planning;

/// <summary>Finds, of the states that a search has met, one that has more done at the same place for as many ticks or a few less.</summary>
/// <remarks>Those that may be compared lie side by side, each with its work, so that most are told apart by a look at one word.</remarks>
/// <param name="words">How many words hold the work of a state.</param>
/// <param name="less">By how many ticks less the other may have come there: those much cheaper are hardly ever still of the same kind.</param>
internal sealed class StayFurther(StayStore store, int words, long less)
{
    private readonly Dictionary<(int Place, int Carried), SortedList<long, Alike>> _alike = [];
    private int _count;

    /// <summary>Whether one of the states met makes this one needless. Those met since the last question are looked at too.</summary>
    public bool IsPassed(int state)
    {
        for (; _count < store.Count; _count++)
        {
            ref var here = ref CollectionsMarshal.GetValueRefOrAddDefault(_alike, KeyOf(_count), out _);
            here ??= [];
            if (!here.TryGetValue(store[_count].Cost, out var group))
            {
                here.Add(store[_count].Cost, group = new Alike(words));
            }

            group.Add(_count, store.AllIn(_count));
        }

        var work = store.AllIn(state);
        var byCost = _alike[KeyOf(state)];
        for (var cost = byCost.IndexOfKey(store[state].Cost); cost >= 0 && byCost.GetKeyAtIndex(cost) >= store[state].Cost - less; cost--)
        {
            var alike = byCost.GetValueAtIndex(cost);
            for (var at = alike.Next(work, 0); at >= 0; at = alike.Next(work, at + 1))
            {
                if (store.IsFurther(alike[at], state))
                {
                    return true;
                }
            }
        }

        return false;
    }

    private (int Place, int Carried) KeyOf(int state) => (store[state].Place, store[state].Carried);

    private sealed class Alike(int words)
    {
        private ulong[] _work = new ulong[4 * words];
        private int[] _states = new int[4];
        private int _count;

        public int this[int at] => _states[at];

        public void Add(int state, ReadOnlySpan<ulong> work)
        {
            if (_count == _states.Length)
            {
                Array.Resize(ref _states, 2 * _count);
                Array.Resize(ref _work, 2 * _count * words);
            }

            work.CopyTo(_work.AsSpan(_count * words));
            _states[_count++] = state;
        }

        /// <summary>The next that has all this work done, or -1.</summary>
        public int Next(ReadOnlySpan<ulong> work, int from)
        {
            for (var at = from; at < _count; at++)
            {
                if (Bits.IsSubset(work, _work.AsSpan(at * words, words)))
                {
                    return at;
                }
            }

            return -1;
        }
    }
}
