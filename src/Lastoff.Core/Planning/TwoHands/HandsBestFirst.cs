namespace Lastoff.Core.Planning.TwoHands;

/// <summary>Gives the ends of a course in the order of the least that they can cost, for as long as states last.</summary>
internal sealed class HandsBestFirst
{
    private readonly Course _course;
    private readonly HandsMoves _moves;
    private readonly HandsBound _bound;
    private readonly Func<ulong[], long> _rest;
    private readonly HandsBudget _budget;
    private readonly PriorityQueue<(HandsState State, bool IsEnd), (long Bound, int Steps, int Number)> _open = new();
    private readonly Dictionary<ulong, List<HandsState>> _kept = [];
    private int _number;

    /// <param name="rest">The least that comes after, once this set is reached or passed.</param>
    public HandsBestFirst(Course course, Func<ulong[], long> rest, HandsBudget budget)
    {
        _course = course;
        _moves = new HandsMoves(course);
        _bound = new HandsBound(course);
        _rest = rest;
        _budget = budget;
        Keep(HandsState.First(course), 0);
    }

    /// <summary>No end that was not given yet costs less.</summary>
    public long Bound => _open.TryPeek(out _, out var first) ? first.Bound : long.MaxValue;

    /// <summary>The next end that may cost less than this; null when there is none or the states are used up, see <see cref="Bound"/>.</summary>
    public HandsState? Next(long lessThan)
    {
        while (Bound < lessThan && _budget.Left > 0)
        {
            var (state, isEnd) = _open.Dequeue();
            if (isEnd)
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
        var rest = _rest(state.Set);
        state.Bound = Math.Max(atLeast, _bound.From(state) + rest);
        if (_course.IsMet(state.Set))
        {
            _open.Enqueue((state, true), (Math.Max(atLeast, state.End + rest), -state.Steps, ++_number));
        }

        _open.Enqueue((state, false), (state.Bound, -state.Steps, ++_number));
    }
}

/// <summary>What several searches share: states that may still be kept, and the call to stop.</summary>
internal sealed class HandsBudget(int states, CancellationToken cancel)
{
    public int Left { get; set; } = states;

    public CancellationToken Cancel => cancel;
}
