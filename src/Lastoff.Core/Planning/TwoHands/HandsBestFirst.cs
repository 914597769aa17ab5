namespace Lastoff.Core.Planning.TwoHands;

/// <summary>The earliest end of a course whose members are all begun, for as long as states last.</summary>
internal sealed class HandsBestFirst
{
    private readonly Course _course;
    private readonly HandsMoves _moves;
    private readonly HandsBound _bound;
    private readonly HandsBudget _budget;
    private readonly PriorityQueue<HandsState, (long Bound, int Steps, int Number)> _open = new();
    private readonly Dictionary<ulong, List<HandsState>> _kept = [];
    private int _number;

    public HandsBestFirst(Course course, HandsBudget budget)
    {
        _course = course;
        _moves = new HandsMoves(course);
        _bound = new HandsBound(course);
        _budget = budget;
        Keep(HandsState.First(course), 0);
    }

    /// <summary>No end is earlier.</summary>
    public long Bound => _open.TryPeek(out _, out var first) ? first.Bound : long.MaxValue;

    /// <summary>The earliest end if it is earlier than this; null when it is not or the states are used up, see <see cref="Bound"/>.</summary>
    /// <param name="spare">States to leave for others.</param>
    public HandsState? End(long earlierThan, int spare)
    {
        while (Bound < earlierThan && _budget.Left > spare)
        {
            var state = _open.Dequeue();
            if (_course.IsMet(state.Set))
            {
                return state;
            }

            if (state.IsOutdone)
            {
                continue;
            }

            _budget.Cancel.ThrowIfCancellationRequested();
            foreach (var move in _moves.From(state.Set))
            {
                Keep(_moves.Begin(state, move, byA: true), state.Bound);
                Keep(_moves.Begin(state, move, byA: false), state.Bound);
            }
        }

        return null;
    }

    private void Keep(HandsState state, long atLeast)
    {
        if (!_kept.TryGetValue(state.Likeness(), out var alike))
        {
            _kept.Add(state.Likeness(), alike = []);
        }

        foreach (var other in alike)
        {
            if (other.IsAlike(state) && other.Outdoes(state))
            {
                return;
            }
        }

        foreach (var other in alike)
        {
            other.IsOutdone |= other.IsAlike(state) && state.Outdoes(other);
        }

        alike.RemoveAll(other => other.IsOutdone);
        alike.Add(state);
        _budget.Left--;
        state.Bound = Math.Max(atLeast, _bound.From(state));
        _open.Enqueue(state, (state.Bound, -state.Steps, ++_number));
    }
}

/// <summary>What several searches share: states that may still be kept, and the call to stop.</summary>
internal sealed class HandsBudget(int states, CancellationToken cancel)
{
    public int Left { get; set; } = states;

    public CancellationToken Cancel => cancel;
}
