namespace Lastoff.Core.Planning;

/// <summary>The states that a search of stays has met.</summary>
/// <remarks>
/// Of two with the same work, done or paid for, at the same place, one replaces the other when it costs less by the taking of a tool for every use
/// that is pending in the other only: that is the most which a pending use can yet save.
/// </remarks>
internal sealed class StayStore(StayProblem problem)
{
    private readonly int _words = problem.Words;
    private readonly SetIndex _index = new(problem.Words);
    private readonly List<int> _heads = [];
    private ulong[] _done = new ulong[256 * problem.Words];
    private StayState[] _states = new StayState[256];
    private int[] _numbers = new int[256];

    public int Count { get; private set; }

    public ref StayState this[int state] => ref _states[state];

    public ReadOnlySpan<ulong> DoneIn(int state) => _done.AsSpan(state * _words, _words);

    /// <summary>How many landmarks are done or paid for.</summary>
    public int WorkOf(int state) => Bits.Count(AllIn(state));

    /// <summary>What is done or paid for.</summary>
    public ReadOnlySpan<ulong> AllIn(int state) => _index[_numbers[state]];

    /// <summary>Whether another state at the same place, for no more ticks, can do all that this one can, and has more done or paid for.</summary>
    /// <remarks>Having it done never hurts: the other goes on as this one would, and leaves out what it has done.</remarks>
    public bool IsFurther(int other, int state) =>
        _states[other].Carried == _states[state].Carried
        && Bits.IsSubset(AllIn(state), AllIn(other))
        && _numbers[other] != _numbers[state]
        && Replaces(_states[other], DoneIn(other), _states[state], DoneIn(state));

    /// <summary>Whether a state met before makes this one needless.</summary>
    /// <param name="all">What is done, and what is paid for.</param>
    public bool IsOutdone(ReadOnlySpan<ulong> done, ReadOnlySpan<ulong> all, in StayState state)
    {
        for (var other = HeadOf(all, state); other >= 0; other = _states[other].Alike)
        {
            ref var known = ref _states[other];
            if (!known.IsOutdone && Replaces(known, DoneIn(other), state, done))
            {
                return true;
            }
        }

        return false;
    }

    public int Add(ReadOnlySpan<ulong> done, ReadOnlySpan<ulong> all, StayState state)
    {
        for (var other = HeadOf(all, state); other >= 0; other = _states[other].Alike)
        {
            ref var known = ref _states[other];
            known.IsOutdone |= Replaces(state, done, known, DoneIn(other));
        }

        if (Count == _states.Length)
        {
            Array.Resize(ref _states, 2 * Count);
            Array.Resize(ref _numbers, 2 * Count);
            Array.Resize(ref _done, 2 * Count * _words);
        }

        var number = _index.Add(all, Tag(state));
        if (number == _heads.Count)
        {
            _heads.Add(-1);
        }

        state.Alike = _heads[number];
        _heads[number] = Count;
        _numbers[Count] = number;
        done.CopyTo(_done.AsSpan(Count * _words));
        _states[Count] = state;
        return Count++;
    }

    private bool Replaces(in StayState better, ReadOnlySpan<ulong> betterDone, in StayState other, ReadOnlySpan<ulong> otherDone)
    {
        var most = other.Cost - better.Cost - problem.Take * (long)UInt128.PopCount(other.Pending & ~better.Pending);
        if (most < 0)
        {
            return false;
        }

        // Where the other has some of the work behind it that here still waits for the same use, that use may have to be placed early, as if it were not pending.
        for (var both = better.Pending & other.Pending; both != 0; both &= both - 1)
        {
            var work = problem.Uses[(int)UInt128.TrailingZeroCount(both)].Work;
            for (var i = 0; i < work.Length; i++)
            {
                if ((work[i] & otherDone[i] & ~betterDone[i]) != 0)
                {
                    most -= problem.Take;
                    break;
                }
            }
        }

        return most >= 0;
    }

    private int HeadOf(ReadOnlySpan<ulong> all, in StayState state) => _index.Find(all, Tag(state)) is >= 0 and var number ? _heads[number] : -1;

    private int Tag(in StayState state) => state.Place * problem.Tools + state.Carried;
}
