namespace Lastoff.Core.Planning;

/// <summary>Finds the stays that cost least in set-ups: good ones by beams of growing width, then the best by A*.</summary>
/// <remarks>It stops at a number of states, never at a time, and can be gone on with from there. When it stops early, the bound is the least that any state still waiting could lead to.</remarks>
internal sealed class StaySearch
{
    /// <summary>With more landmarks than this a proof is too far off to come before a good plan.</summary>
    public const int ManyLandmarks = 100;

    /// <summary>About how many states a beam keeps for each that it goes on from.</summary>
    private const int StatesOfAMove = 4;

    /// <summary>A beam no wider than this is worth its states however few there are.</summary>
    private const int AlwaysWidth = 8;

    private static readonly int[] NarrowBeams = [1, 8];
    private static readonly int[] WideBeams = [64, 512];

    private readonly StayProblem _problem;
    private readonly int _tableEntries;
    private readonly StayMoves _moves;
    private readonly StayBound _bound;
    private readonly Patience _patience;
    private readonly List<StayMove> _next = [];
    private readonly ulong[] _done;
    private readonly ulong[] _all;
    private readonly HashSet<int> _swept = [];
    private readonly StayStore _met;
    private readonly StayFurther _further;
    private readonly PriorityQueue<int, (long Least, long ToGo, int State)> _waiting = new();
    /// <summary>The states of what is going on: a beam's, or those met best first.</summary>
    private StayStore _store;
    private long _best = long.MaxValue;
    private int _bestState;
    private StayOrder? _order;
    private long _orderCost = long.MaxValue;
    private long _least;

    /// <param name="tableEntries">How many entries a table of the bound may have.</param>
    /// <param name="states">How many states may be spent on the bound for the whole way.</param>
    public StaySearch(StayProblem problem, int tableEntries, int states, Patience patience)
    {
        _problem = problem;
        _tableEntries = tableEntries;
        _moves = new StayMoves(problem);
        _bound = new StayBound(problem, tableEntries, states, patience);
        _patience = patience;
        _done = new ulong[problem.Words];
        _all = new ulong[problem.Words];
        _store = _met = new StayStore(problem);
        _further = new StayFurther(_met, problem.Words, problem.Take);
    }

    /// <summary>Whether nothing was left out so far that may be asked for now, when so much is known.</summary>
    /// <param name="tableEntries">How many entries a table of the bound may have now; where the bound does without tables it does not matter.</param>
    public bool CanGoOn(long known, int tableEntries) => (known <= _best || _orderCost == _best) && (tableEntries <= _tableEntries || _bound.HasFewStates);

    /// <summary>Searches until so many states are kept, those of earlier runs included.</summary>
    /// <param name="limit">How many states may be kept best first; a beam keeps no more than that.</param>
    /// <param name="known">What set-ups are known to cost at most.</param>
    public StayResult Run(int limit, long known)
    {
        var states = 0;
        _best = Math.Min(_best, known);
        Sweep(narrow: true);
        if (_problem.Needs.Length > ManyLandmarks)
        {
            Sweep(narrow: false);
        }

        if (_bound.Root < _best)
        {
            var had = _met.Count;
            BestFirst(Math.Max(limit - states, limit / 2));
            states += _met.Count - had;
            if (_problem.Needs.Length <= ManyLandmarks)
            {
                Sweep(narrow: false);
            }
        }

        return new StayResult(_orderCost < known ? _order : null, Math.Min(Math.Max(_bound.Root, _least), _best), states);

        // Wide beams come last: when the search proves what the narrow ones found, they are not needed.
        void Sweep(bool narrow)
        {
            foreach (var width in narrow ? NarrowBeams : WideBeams)
            {
                var likely = StatesOfAMove * width * _problem.Needs.Length;
                if (Math.Max(_bound.Root, _least) < _best && (width <= AlwaysWidth || likely < limit) && _swept.Add(width))
                {
                    states += Beam(width);
                }
            }
        }
    }

    private int Beam(int width)
    {
        _store = new StayStore(_problem);
        _bestState = -1;
        var levels = Enumerable.Range(0, _problem.Needs.Length + 1).Select(_ => new PriorityQueue<int, (long Least, int State)>()).ToArray();
        Begin((state, least) => levels[_store.WorkOf(state)].Enqueue(state, (least, state)));
        foreach (var level in levels)
        {
            for (var left = width; left > 0 && !_patience.IsOver && level.TryDequeue(out var state, out var at); left--)
            {
                if (at.Least >= _best || _store[state].IsOutdone)
                {
                    continue;
                }

                Expand(state, at.Least, (next, least) => levels[_store.WorkOf(next)].Enqueue(next, (least, next)));
            }
        }

        KeepBest();
        return _store.Count;
    }

    private void BestFirst(int limit)
    {
        _store = _met;
        _bestState = -1;
        if (_met.Count == 0)
        {
            Begin(Wait);
        }

        while (_waiting.TryPeek(out var state, out var at) && at.Least < _best && _met.Count < limit && !_patience.IsOver)
        {
            _waiting.Dequeue();
            if (!_met[state].IsOutdone && !_further.IsPassed(state))
            {
                Expand(state, at.Least, Wait);
            }
        }

        _least = _waiting.TryPeek(out _, out var next) ? Math.Min(next.Least, _best) : _best;
        KeepBest();

        void Wait(int state, long least) => _waiting.Enqueue(state, (least, least - _store[state].Cost, state));
    }

    private void Begin(Action<int, long> met)
    {
        _bestState = -1;
        for (var place = 0; place < _problem.Places; place++)
        {
            if (_problem.Start < 0 || _problem.Start == place)
            {
                Array.Clear(_done);
                var state = new StayState { Place = place, Parent = -1 };
                state.Cost = _moves.Close(_done, ref state.Pending, place);
                Meet(state, 0, met);
            }
        }
    }

    private void Expand(int from, long least, Action<int, long> met)
    {
        _patience.Cancel.ThrowIfCancellationRequested();
        _moves.Find(_store.DoneIn(from), _store[from], _next);
        for (var move = 0; move < _next.Count; move++)
        {
            var state = _store[from] with { Parent = from, Move = move };
            _store.DoneIn(from).CopyTo(_done);
            state.Cost += _moves.Make(_done, ref state, _next[move]);
            Meet(state, least, met);
        }
    }

    private void Meet(StayState state, long least, Action<int, long> met)
    {
        _done.CopyTo(_all, 0);
        _moves.AddPending(_all, state.Pending);
        if (_store.IsOutdone(_done, _all, state))
        {
            return;
        }

        least = Math.Max(least, state.Cost + _bound.From(_all, state));
        if (least >= _best)
        {
            return;
        }

        var number = _store.Add(_done, _all, state);
        met(number, least);
        if (state.Cost < _best && IsEnd(number))
        {
            (_best, _bestState) = (state.Cost, number);
        }
    }

    private bool IsEnd(int state) =>
        _store.WorkOf(state) == _problem.Needs.Length && _store[state].Carried == 0 && (_problem.End < 0 || _store[state].Place == _problem.End);

    private void KeepBest()
    {
        if (_bestState >= 0)
        {
            (_order, _orderCost) = (OrderTo(_bestState), _best);
        }
    }

    private StayOrder OrderTo(int state)
    {
        var path = new Stack<int>();
        for (; state >= 0; state = _store[state].Parent)
        {
            path.Push(state);
        }

        var order = new StayOrder();
        var now = new StayState { Place = _store[path.Pop()].Place };
        Array.Clear(_done);
        _moves.Close(_done, ref now.Pending, now.Place, order);
        foreach (var next in path)
        {
            _moves.Find(_done, now, _next);
            _moves.Make(_done, ref now, _next[_store[next].Move], order);
        }

        _moves.Place(_done, ref now.Pending, now.Pending, order);
        return order;
    }
}

/// <param name="Order">The best order that was found; null when none is better than what was known.</param>
/// <param name="LowerBound">Set-ups cost at least this.</param>
internal sealed record StayResult(StayOrder? Order, long LowerBound, int States);
