namespace Lastoff.Core.Planning;

/// <summary>The states a search has met: a set done, a key in hand, the cheapest cost known, and the move that led there.</summary>
/// <remarks>A state is turned away, or struck out later, when another with the same set gives at least as good a start for whatever follows.</remarks>
internal sealed class StateStore(OneWay problem)
{
    private readonly int _words = problem.Words;
    private ulong[] _sets = new ulong[1024 * problem.Words];
    private State[] _states = new State[1024];
    private readonly int _starters = problem.Runs.Starters.Count;
    private long[] _ended = new long[1024 * problem.Runs.Starters.Count];
    private int[] _heads = NewHeads(4096);

    public int Count { get; private set; }

    public ref State this[int state] => ref _states[state];

    public ReadOnlySpan<ulong> SetOf(int state) => _sets.AsSpan(state * _words, _words);

    /// <summary>When each operation that others wait for ended.</summary>
    public ReadOnlySpan<long> EndedIn(int state) => _ended.AsSpan(state * _starters, _starters);

    /// <summary>The number of the new state, or -1 when another makes it needless.</summary>
    public int Add(ReadOnlySpan<ulong> set, int key, long cost, OneWayTime time, int parent, OneWayStep move)
    {
        var head = HeadOf(set);
        for (var other = _heads[head]; other >= 0; other = _states[other].SameSet)
        {
            ref var known = ref _states[other];
            if (known.Dead)
            {
                continue;
            }

            if (IsCovered(cost, key, by: known.Cost, inHand: known.Key) && problem.Runs.IsNoLater(EndedIn(other), time.Ended, time.Clock, set))
            {
                return -1;
            }

            if (IsCovered(known.Cost, known.Key, by: cost, inHand: key) && problem.Runs.IsNoLater(time.Ended, EndedIn(other), known.Clock, set))
            {
                known.Dead = true;
            }
        }

        if (Count == _states.Length)
        {
            Array.Resize(ref _states, 2 * Count);
            Array.Resize(ref _sets, 2 * Count * _words);
            Array.Resize(ref _ended, 2 * Count * _starters);
            Spread();
            head = HeadOf(set);
        }

        set.CopyTo(_sets.AsSpan(Count * _words));
        time.Ended.CopyTo(_ended.AsSpan(Count * _starters));
        _states[Count] = new State { Key = key, Cost = cost, Clock = time.Clock, Parent = parent, Move = move, SameSet = _heads[head] };
        _heads[head] = Count;
        return Count++;
    }

    private bool IsCovered(long cost, int key, long by, int inHand) =>
        inHand == key ? by <= cost : problem.Triangle && inHand >= 0 && key >= 0 && by + problem.SetUp[inHand, key] <= cost;

    private int HeadOf(ReadOnlySpan<ulong> set)
    {
        var slot = (int)(Bits.Hash(set) & (uint)(_heads.Length - 1));
        while (_heads[slot] >= 0 && !SetOf(_heads[slot]).SequenceEqual(set))
        {
            slot = slot + 1 & _heads.Length - 1;
        }

        return slot;
    }

    private void Spread()
    {
        _heads = NewHeads(4 * _states.Length);
        for (var i = 0; i < Count; i++)
        {
            var head = HeadOf(SetOf(i));
            _states[i].SameSet = _heads[head];
            _heads[head] = i;
        }
    }

    private static int[] NewHeads(int length)
    {
        var heads = new int[length];
        Array.Fill(heads, -1);
        return heads;
    }

    public struct State
    {
        public int Key;
        public long Cost;
        public long Clock;
        public int Parent;
        public OneWayStep Move;
        public bool Dead;
        public int SameSet;
    }
}

/// <summary>One operation done one way; <paramref name="Way"/> is its place among the ways of the operation.</summary>
internal readonly record struct OneWayStep(int Operation, int Way);
