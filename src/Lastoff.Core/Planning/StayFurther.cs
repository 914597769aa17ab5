namespace Lastoff.Core.Planning;

/// <summary>Finds, of the states that a search has met, one that has more done at the same place for the same ticks.</summary>
/// <remarks>They are kept apart by place, ticks, and a few landmarks that about half of the states have done, so that only a few need to be compared.</remarks>
internal sealed class StayFurther(StayStore store, int landmarks)
{
    private const int MarkCount = 8;

    /// <summary>How many states there are when the landmarks to keep them apart by are chosen, and how many times as many when they are chosen anew.</summary>
    private const int FirstChoice = 1000;

    private const int NextChoice = 30;

    /// <summary>For every place and number of ticks the last state met with each pattern of marks; those before it follow by <see cref="_next"/>.</summary>
    private readonly Dictionary<(long Cost, int Place), List<(int Marks, int Last)>> _met = [];
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

        var marks = MarksOf(state);
        foreach (var (others, last) in _met[KeyOf(state)])
        {
            for (var other = (others & marks) == marks ? last : -1; other >= 0; other = _next[other])
            {
                if (other != state && store.IsFurther(other, state))
                {
                    return true;
                }
            }
        }

        return false;
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
        if (!_met.TryGetValue(KeyOf(state), out var alike))
        {
            _met[KeyOf(state)] = alike = [];
        }

        var marks = MarksOf(state);
        var at = alike.FindIndex(one => one.Marks == marks);
        if (at < 0)
        {
            at = alike.Count;
            alike.Add((marks, -1));
        }

        _next[state] = alike[at].Last;
        alike[at] = (marks, state);
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
        _met.Clear();
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

    private (long Cost, int Place) KeyOf(int state) => (store[state].Cost, store[state].Place);
}
