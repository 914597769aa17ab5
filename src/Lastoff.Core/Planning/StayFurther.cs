using System.Runtime.InteropServices;

namespace Lastoff.Core.Planning;

/// <summary>Finds, of the states that a search has met, one that has more done at the same place for the same ticks.</summary>
/// <remarks>Those that may be compared lie side by side, each with its work, so that most are told apart by a look at one word.</remarks>
internal sealed class StayFurther(StayStore store, int words)
{
    private readonly Dictionary<(long Cost, int Place, int Carried), Alike> _alike = [];
    private int _count;

    /// <summary>Whether one of the states met makes this one needless. Those met since the last question are looked at too.</summary>
    public bool IsPassed(int state)
    {
        for (; _count < store.Count; _count++)
        {
            ref var group = ref CollectionsMarshal.GetValueRefOrAddDefault(_alike, KeyOf(_count), out _);
            (group ??= new Alike(words)).Add(_count, store.AllIn(_count));
        }

        var work = store.AllIn(state);
        var alike = _alike[KeyOf(state)];
        for (var at = alike.Next(work, 0); at >= 0; at = alike.Next(work, at + 1))
        {
            if (store.IsFurther(alike[at], state))
            {
                return true;
            }
        }

        return false;
    }

    private (long Cost, int Place, int Carried) KeyOf(int state) => (store[state].Cost, store[state].Place, store[state].Carried);

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
