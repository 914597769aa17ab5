namespace Lastoff.Core.Planning;

/// <summary>What the set-ups still cost at least, were every tool carried over at every change of place.</summary>
/// <remarks>
/// Then each use costs the same wherever it comes in the order, so a last use is made at once, and the problem shrinks to a few states. It is
/// solved exactly and every answer is remembered, as long as that takes few states; past that a sum of tables stands in.
/// </remarks>
internal sealed class StayBound
{
    /// <summary>When the answer for the whole way takes more states than this, later answers come from the tables.</summary>
    private const int FewStates = 3000;

    private const int MostStatesOfAnAnswer = 500;

    /// <summary>How many states an answer may take on average.</summary>
    private const int StatesOfAnAnswer = 4;

    private readonly StayProblem _problem;
    private readonly long _use;
    private readonly long[,] _go;
    private readonly StayTables _tables;
    private readonly SetIndex _seen;
    private readonly List<long> _bounds = [];
    private readonly SetIndex _known;
    private readonly List<(long Least, bool IsExact)> _answers = [];
    private readonly SetIndex _met;
    private readonly List<State> _states = [];
    private readonly PriorityQueue<int, (long Least, long ToGo, int State)> _waiting = new();
    private readonly List<int> _expanded = [];
    private readonly ulong[] _closed;
    private readonly ulong[] _next;
    private long _asked;
    private long _spent;

    /// <param name="entries">How many entries a table may have.</param>
    /// <param name="states">How many states may be spent on the bound for the whole way.</param>
    public StayBound(StayProblem problem, int entries, int states, Patience patience)
    {
        _problem = problem;
        (_seen, _known, _met) = (new SetIndex(problem.Words), new SetIndex(problem.Words), new SetIndex(problem.Words));
        (_closed, _next) = (new ulong[problem.Words], new ulong[problem.Words]);
        _tables = new StayTables(problem, entries);
        (_use, _go) = (_tables.Use, _tables.Go);
        (Root, HasFewStates) = FromStart(Math.Min(states, FewStates), patience);
        if (!HasFewStates && states > FewStates)
        {
            Root = Math.Max(Root, FromStart(states, patience).Least);
        }
    }

    /// <summary>The bound for the whole way.</summary>
    public long Root { get; }

    /// <summary>Whether every answer is exact, as far as states were spent on it; else it comes from the tables.</summary>
    public bool HasFewStates { get; }

    /// <param name="done">What is done, and what the pending uses will do.</param>
    /// <remarks>Where a change of place costs less than taking up a tool, each pending use may yet give some of its ticks back.</remarks>
    public long From(ReadOnlySpan<ulong> done, in StayState state)
    {
        var number = _seen.Add(done, state.Place);
        if (number == _bounds.Count)
        {
            _bounds.Add(From(done, state.Place));
        }

        return _bounds[number] - (long)UInt128.PopCount(state.Pending) * (_problem.Take - _use);
    }

    private long From(ReadOnlySpan<ulong> done, int place)
    {
        done.CopyTo(_closed);
        var paid = Close(_closed, place);
        if (!HasFewStates)
        {
            return paid + _tables.From(_closed, place);
        }

        var known = _known.Find(_closed, place);
        if (known >= 0 && _answers[known].IsExact)
        {
            return paid + _answers[known].Least;
        }

        if (++_asked * StatesOfAnAnswer < _spent)
        {
            return paid + Math.Max(_tables.From(_closed, place), known < 0 ? 0 : _answers[known].Least);
        }

        Begin();
        Meet(_closed, place, 0, -1);
        return paid + Solve(MostStatesOfAnAnswer, CancellationToken.None).Least;
    }

    private (long Least, bool IsExact) FromStart(int states, Patience patience)
    {
        Begin();
        for (var place = 0; place < _problem.Places; place++)
        {
            if (_problem.Start < 0 || _problem.Start == place)
            {
                Array.Clear(_next);
                Meet(_next, place, Close(_next, place), -1);
            }
        }

        return Solve(states, patience);
    }

    /// <summary>Bare-handed work and last uses at a place, done at once; returns the ticks.</summary>
    private long Close(ulong[] done, int place)
    {
        var ticks = 0L;
        for (var moved = true; moved;)
        {
            moved = false;
            foreach (var use in _problem.At[place])
            {
                if (use.Tool == StayProblem.Hand)
                {
                    moved |= _problem.Do(done, use.Work);
                }
                else if (_problem.IsLastUse(done, use.Work))
                {
                    Bits.AddAll(done, use.Work);
                    ticks += _use;
                    moved = true;
                }
            }
        }

        return ticks;
    }

    private void Begin()
    {
        _met.Clear();
        _states.Clear();
        _waiting.Clear();
        _expanded.Clear();
    }

    private void Meet(ReadOnlySpan<ulong> done, int place, long cost, int parent)
    {
        var number = _met.Add(done, place);
        if (number == _states.Count)
        {
            _states.Add(new State(cost, LeastFrom(done, place), parent));
        }
        else if (cost >= _states[number].Cost)
        {
            return;
        }
        else
        {
            _states[number] = _states[number] with { Cost = cost, Parent = parent };
        }

        _waiting.Enqueue(number, (cost + _states[number].ToGo, _states[number].ToGo, number));
    }

    /// <summary>What is remembered of a state, or else the tables.</summary>
    private long LeastFrom(ReadOnlySpan<ulong> done, int place) => _known.Find(done, place) is >= 0 and var known ? _answers[known].Least : _tables.From(done, place);

    private (long Least, bool IsExact) Solve(int limit, Patience patience)
    {
        var least = 0L;
        var end = -1;
        while (_waiting.TryDequeue(out var state, out var order))
        {
            if (order.Least != _states[state].Cost + _states[state].ToGo)
            {
                continue;
            }

            least = Math.Max(least, order.Least);
            if (IsAnswered(state))
            {
                end = state;
                break;
            }

            if (_expanded.Count >= limit || patience.IsOver)
            {
                break;
            }

            patience.Cancel.ThrowIfCancellationRequested();
            _expanded.Add(state);
            _spent++;
            Expand(state);
        }

        Remember(end, least);
        return (least, end >= 0);
    }

    private bool IsAnswered(int state) =>
        Bits.IsSubset(_problem.All, _met[state])
        || (_known.Find(_met[state], _met.TagOf(state)) is >= 0 and var known && _answers[known].IsExact);

    private void Expand(int state)
    {
        var place = _met.TagOf(state);
        var cost = _states[state].Cost;
        foreach (var use in _problem.At[place])
        {
            _met[state].CopyTo(_next);
            if (use.Tool != StayProblem.Hand && _problem.Do(_next, use.Work))
            {
                Meet(_next, place, cost + _use + Close(_next, place), state);
            }
        }

        for (var to = 0; to < _problem.Places; to++)
        {
            _met[state].CopyTo(_next);
            if (to != place && HasWork(_next, to))
            {
                Meet(_next, to, cost + _go[place, to] + Close(_next, to), state);
            }
        }
    }

    private bool HasWork(ulong[] done, int place)
    {
        foreach (var use in _problem.At[place])
        {
            if (_problem.IsAnyAvailable(done, use.Work))
            {
                return true;
            }
        }

        return false;
    }

    private void Remember(int end, long least)
    {
        foreach (var state in _expanded)
        {
            Note(state, Math.Max(_states[state].ToGo, least - _states[state].Cost), isExact: false);
        }

        for (var state = end; state >= 0; state = _states[state].Parent)
        {
            Note(state, least - _states[state].Cost, isExact: true);
        }
    }

    private void Note(int state, long least, bool isExact)
    {
        var number = _known.Add(_met[state], _met.TagOf(state));
        if (number == _answers.Count)
        {
            _answers.Add((least, isExact));
        }
        else if (!_answers[number].IsExact && (isExact || least > _answers[number].Least))
        {
            _answers[number] = (least, isExact);
        }
    }

    private readonly record struct State(long Cost, long ToGo, int Parent);
}
