namespace Lastoff.Core.Planning;

/// <summary>Finds the stays that cost least in set-ups: good ones by beams of growing width, then the best by A*.</summary>
/// <remarks>It stops at a number of states, never at a time. When it stops early, the bound is the least that any state still waiting could lead to.</remarks>
internal sealed class StaySearch
{
    /// <summary>With more landmarks than this a proof is too far off to come before a good plan.</summary>
    private const int ManyLandmarks = 100;

    /// <summary>About how many states a beam keeps for each that it goes on from.</summary>
    private const int StatesOfAMove = 4;

    /// <summary>A beam no wider than this is worth its states however few there are.</summary>
    private const int AlwaysWidth = 8;

    private static readonly int[] NarrowBeams = [1, 8];
    private static readonly int[] WideBeams = [64, 512];

    private readonly StayProblem _problem;
    private readonly StayMoves _moves;
    private readonly StayBound _bound;
    private readonly Patience _patience;
    private readonly List<StayMove> _next = [];
    private readonly ulong[] _done;
    private readonly ulong[] _all;
    private StayStore _store;
    private long _best;
    private int _bestState;

    private StaySearch(StayProblem problem, StayBound bound, long known, Patience patience)
    {
        _problem = problem;
        _moves = new StayMoves(problem);
        _bound = bound;
        _best = known;
        _patience = patience;
        _done = new ulong[problem.Words];
        _all = new ulong[problem.Words];
        _store = new StayStore(problem);
    }

    /// <param name="limit">How many states may be kept, in all.</param>
    /// <param name="known">What set-ups are known to cost at most.</param>
    public static StayResult Run(StayProblem problem, int limit, int tableEntries, long known, Patience patience)
    {
        var bound = new StayBound(problem, tableEntries, limit, patience);
        return new StaySearch(problem, bound, known, patience).Run(limit);
    }

    private StayResult Run(int limit)
    {
        StayOrder? order = null;
        var (states, least) = (0, 0L);
        Sweep(narrow: true);
        if (_problem.Needs.Length > ManyLandmarks)
        {
            Sweep(narrow: false);
        }

        if (_bound.Root < _best)
        {
            var (found, reached) = BestFirst(Math.Max(limit - states, limit / 2));
            (order, least) = (found ?? order, reached);
            states += _store.Count;
            if (_problem.Needs.Length <= ManyLandmarks)
            {
                Sweep(narrow: false);
            }
        }

        return new StayResult(order, Math.Min(Math.Max(_bound.Root, least), _best), states);

        // Wide beams come last: when the search proves what the narrow ones found, they are not needed.
        void Sweep(bool narrow)
        {
            foreach (var width in narrow ? NarrowBeams : WideBeams)
            {
                var likely = StatesOfAMove * width * _problem.Needs.Length;
                if (Math.Max(_bound.Root, least) < _best && (width <= AlwaysWidth || likely < limit))
                {
                    order = Beam(width) ?? order;
                    states += _store.Count;
                }
            }
        }
    }

    private StayOrder? Beam(int width)
    {
        _store = new StayStore(_problem);
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

        return OrderToBest();
    }

    private (StayOrder? Order, long Least) BestFirst(int limit)
    {
        _store = new StayStore(_problem);
        var waiting = new PriorityQueue<int, (long Least, long ToGo, int State)>();
        Begin(Wait);
        while (waiting.TryDequeue(out var state, out var at))
        {
            if (_store[state].IsOutdone)
            {
                continue;
            }

            if (at.Least >= _best)
            {
                break;
            }

            if (_store.Count >= limit || _patience.IsOver)
            {
                return (OrderToBest(), at.Least);
            }

            Expand(state, at.Least, Wait);
        }

        return (OrderToBest(), _best);

        void Wait(int state, long least) => waiting.Enqueue(state, (least, least - _store[state].Cost, state));
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
        foreach (var move in _next)
        {
            var state = _store[from] with { Parent = from, Move = move };
            _store.DoneIn(from).CopyTo(_done);
            state.Cost += _moves.Make(_done, ref state, move);
            Meet(state, least, met);
        }
    }

    private void Meet(StayState state, long least, Action<int, long> met)
    {
        _done.CopyTo(_all, 0);
        _moves.AddPending(_all, state.Pending);
        if (_store.IsOutdone(_all, state))
        {
            return;
        }

        least = Math.Max(least, state.Cost + _bound.From(_all, state.Place, (int)UInt128.PopCount(state.Pending)));
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

    private StayOrder? OrderToBest() => _bestState < 0 ? null : OrderTo(_bestState);

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
            _moves.Make(_done, ref now, _store[next].Move, order);
        }

        _moves.Place(_done, ref now.Pending, now.Pending, order);
        return order;
    }
}

/// <param name="Order">The best order that was found; null when none is better than what was known.</param>
/// <param name="LowerBound">Set-ups cost at least this.</param>
internal sealed record StayResult(StayOrder? Order, long LowerBound, int States);
