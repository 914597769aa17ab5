namespace Lastoff.Core.Planning;

/// <summary>Finds, of the states that a search has met, one that has more done at the same place for the same ticks.</summary>
/// <remarks>They are kept apart by place, ticks, and a few landmarks that about half of the states have done, so that only a few need to be compared.</remarks>
internal sealed class StayFurther(StayStore store, int landmarks)
{
    private const int MarkCount = 8;

    /// <summary>How many states there are when the landmarks to keep them apart by are chosen, and how many times as many when they are chosen anew.</summary>
    private const int FirstChoice = 1000;

    private const int NextChoice = 30;

    private readonly Dictionary<long, int> _heads = [];
    private int[] _next = new int[256];
    private int[] _marks = [];
    private int _chooseAt = FirstChoice;
    private int _count;

    /// <summary>Whether one of the states met makes this one needless. Those met since the last question are looked at too.</summary>
    public bool IsPassed(int state)
    {
        while (_count < store.Count)
        {
            Add(_count++);
        }

        var missing = (1 << _marks.Length) - 1 & ~MarksOf(state);
        for (var more = missing; ; more = more - 1 & missing)
        {
            for (var other = _heads.GetValueOrDefault(KeyOf(state, MarksOf(state) | more), -1); other >= 0; other = _next[other])
            {
                if (other != state && store.IsFurther(other, state))
                {
                    return true;
                }
            }

            if (more == 0)
            {
                return false;
            }
        }
    }

    private void Add(int state)
    {
        if (state == _chooseAt)
        {
            Choose(state);
        }

        if (state == _next.Length)
        {
            Array.Resize(ref _next, 2 * state);
        }

        Link(state);
    }

    private void Link(int state)
    {
        var key = KeyOf(state, MarksOf(state));
        _next[state] = _heads.GetValueOrDefault(key, -1);
        _heads[key] = state;
    }

    /// <summary>Takes those landmarks that come closest to being done in half of the states.</summary>
    private void Choose(int states)
    {
        var done = new int[landmarks];
        for (var state = 0; state < states; state++)
        {
            var work = store.AllIn(state);
            for (var i = Bits.Next(work, 0); i >= 0; i = Bits.Next(work, i + 1))
            {
                done[i]++;
            }
        }

        _marks = [.. Enumerable.Range(0, landmarks).OrderBy(i => Math.Abs(2 * done[i] - states)).ThenBy(i => i).DistinctBy(i => done[i]).Take(MarkCount)];
        _chooseAt *= NextChoice;
        _heads.Clear();
        for (var state = 0; state < states; state++)
        {
            Link(state);
        }
    }

    private int MarksOf(int state)
    {
        var work = store.AllIn(state);
        var marks = 0;
        for (var i = 0; i < _marks.Length; i++)
        {
            marks |= Bits.Has(work, _marks[i]) ? 1 << i : 0;
        }

        return marks;
    }

    private long KeyOf(int state, int marks) => (store[state].Cost << 8 | (uint)store[state].Place) << MarkCount | (uint)marks;
}
