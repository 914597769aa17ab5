namespace Lastoff.Core.Planning;

/// <summary>Finds the cheapest order for one direction: a good one at once by beams of growing width, then the best by A*.</summary>
/// <remarks>
/// It stops at a number of states, never at a time, so that the same problem has the same answer everywhere. When it stops early, the bound is
/// the least that any state still waiting could lead to.
/// </remarks>
internal sealed class OneWaySearch
{
    /// <summary>With no more states than this only a first plan is wanted, and what the search of stays has to set up would take longer.</summary>
    public const int FewStates = 1000;

    private const int FewOperations = 24;

    /// <summary>An order of more steps than this is gone over window by window, once it is settled which way is taken where.</summary>
    private const int ManyOperations = 60;

    private static readonly int[] NarrowBeams = [1, 16];

    private static readonly int[] BeamWidths = [1, 16, 128, 1024];

    private readonly OneWay _problem;
    private readonly Landmarks _landmarks;
    private readonly OneWayMoves _moves;
    private readonly OneWayBound _bound;
    private readonly Patience _patience;
    private readonly List<OneWayStep> _next = [];
    private readonly ulong[] _set;
    private readonly OneWayTime _time;
    private readonly OneWayWaitBound? _waits;
    private int _states;
    private IReadOnlyList<OneWayStep> _best = [];
    private long _bestCost = long.MaxValue;

    private OneWaySearch(OneWay problem, Landmarks landmarks, Patience patience, int tableEntries)
    {
        _problem = problem;
        _patience = patience;
        _landmarks = landmarks;
        _moves = new OneWayMoves(problem, landmarks);
        _bound = new OneWayBound(problem, landmarks, tableEntries);
        _set = new ulong[problem.Words];
        _time = new OneWayTime(problem.Runs);
        _waits = problem.Runs.Waits.Count == 0 ? null : new OneWayWaitBound(problem, landmarks, _bound.Cheapest);
    }

    /// <param name="limit">How many states may be kept, in all.</param>
    /// <param name="tableEntries">How close a bound on set-ups is wanted; none when it is 0.</param>
    /// <param name="known">An order that is known to be legal, to start from; null when there is none.</param>
    /// <param name="dear">An order that costs this or more is of no use, so a bound that reaches it is enough.</param>
    public static OneWayResult Run(OneWay problem, int limit, int tableEntries, IReadOnlyList<OneWayStep>? known, long dear, StaySearches begun, Patience patience)
    {
        var landmarks = new Landmarks(problem);
        var best = new OneWayResult([], long.MaxValue, 0, 0);
        if (known is not null && OneWayOrder.CostOf(problem, known) is { } cost)
        {
            best = best with { Order = known, Cost = cost };
        }

        if (!problem.Triangle && OrderProblem.Of(problem, landmarks) is { } orders)
        {
            return OrderSearch.Run(orders, limit, best.HasOrder ? best.Order : null, patience.Cancel);
        }

        var stays = tableEntries > 0 && limit > FewStates ? StayProblem.Of(problem, landmarks) : null;
        if (stays is not null)
        {
            best = OfStays(problem, landmarks, stays, best, limit, tableEntries, dear, begun, patience);
        }

        if (best.LowerBound < Math.Min(best.Cost, dear) && !(best.HasOrder && best.LowerBound > 0 && problem.Runs.Waits.Count == 0 && problem.HasNoChoice(landmarks)))
        {
            best = new OneWaySearch(problem, landmarks, patience, tableEntries) { _best = best.Order, _bestCost = best.Cost }.Run(best, limit);
        }

        return stays is not null && best.Order.Count > ManyOperations && problem.Ways.All(ways => ways.Length <= 1) ? StayWindows.Improve(problem, stays, best, begun.Windows, patience) : best;
    }

    /// <summary>The search of stays, which knows nothing of open choices: its order may not be legal, but its bound holds.</summary>
    private static OneWayResult OfStays(OneWay problem, Landmarks landmarks, StayProblem stays, OneWayResult best, int limit, int tableEntries, long dear, StaySearches begun, Patience patience)
    {
        var work = new OneWayBound(problem, landmarks, 0).From(problem.Start, problem.StartKey);
        var found = begun.Run(stays, limit, tableEntries, Math.Min(best.Cost, dear) is < long.MaxValue and var most ? most - work : long.MaxValue, patience);
        best = best with { LowerBound = found.LowerBound == long.MaxValue ? 0 : Math.Min(best.Cost, work + found.LowerBound), States = found.States };
        if (found.Order is { } order && OneWayOrder.Of(problem, stays, order) is { } steps && OneWayOrder.CostOf(problem, steps) is { } cost && cost < best.Cost)
        {
            best = best with { Order = steps, Cost = cost };
        }

        return best;
    }

    private OneWayResult Run(OneWayResult known, int limit)
    {
        var least = Math.Max(known.LowerBound, LeastFrom(_problem.Start, _problem.StartKey));
        // After a search of stays in a large problem, only an order is still wanted: its bound is the closer one, and splitting the choices goes further.
        var onlyBeams = known.LowerBound > 0 && _problem.Runs.Waits.Count == 0 && Bits.Count(_problem.Allowed) > FewOperations;
        foreach (var width in onlyBeams ? NarrowBeams : BeamWidths)
        {
            if (least < _bestCost && (_bestCost == long.MaxValue || _states < limit / 4))
            {
                Beam(width, limit / 2);
            }
        }

        var bound = onlyBeams ? least : least < _bestCost ? Math.Max(known.LowerBound, BestFirst(Math.Max(limit - _states, limit / 4))) : _bestCost;
        return new OneWayResult(_best, _bestCost, Math.Min(bound, _bestCost), known.States + _states);
    }

    private void Beam(int width, int limit)
    {
        var store = new StateStore(_problem);
        var level = new List<(long Least, int State)> { Root(store) };
        var following = new List<(long Least, int State)>();
        while (level.Count > 0 && (store.Count < limit && !_patience.IsOver || _bestCost == long.MaxValue))
        {
            following.Clear();
            foreach (var (_, state) in level)
            {
                Expand(store, state, 0, following);
            }

            following.Sort();
            if (following.Count > width)
            {
                following.RemoveRange(width, following.Count - width);
            }

            (level, following) = (following, level);
        }

        _states += store.Count;
    }

    private long BestFirst(int limit)
    {
        var store = new StateStore(_problem);
        var waiting = new PriorityQueue<int, (long Least, long ToGo, int State)>();
        var made = new List<(long Least, int State)> { Root(store) };
        while (true)
        {
            foreach (var (least, state) in made)
            {
                waiting.Enqueue(state, (least, least - store[state].Cost, state));
            }

            made.Clear();
            var bound = long.MaxValue;
            while (waiting.TryDequeue(out var state, out var order))
            {
                bound = order.Least;
                if (bound >= _bestCost || store.Count >= limit || _patience.IsOver)
                {
                    break;
                }

                if (!store[state].Dead)
                {
                    Expand(store, state, bound, made);
                    break;
                }
            }

            if (bound >= _bestCost || store.Count >= limit || _patience.IsOver)
            {
                _states += store.Count;
                return Math.Min(bound, _bestCost);
            }
        }
    }

    private (long Least, int State) Root(StateStore store)
    {
        _problem.Start.CopyTo(_set.AsSpan());
        Array.Fill(_time.Ended, OneWayRuns.LongAgo);
        _time.Clock = 0;
        var cost = _moves.PullForward(_set, _problem.StartKey, _time);
        var root = store.Add(_set, _problem.StartKey, cost, _time, -1, default);
        Settle(store, root);
        return (cost + LeastFrom(_set, _problem.StartKey), root);
    }

    private void Expand(StateStore store, int state, long least, List<(long Least, int State)> made)
    {
        _patience.Cancel.ThrowIfCancellationRequested();
        if (_problem.IsMet(store.SetOf(state)))
        {
            return;
        }

        _time.Set(store[state].Clock, store.EndedIn(state));
        _moves.Find(store.SetOf(state), store[state].Key, _time, _next);
        foreach (var move in _next)
        {
            store.SetOf(state).CopyTo(_set);
            _time.Set(store[state].Clock, store.EndedIn(state));
            var key = store[state].Key;
            var cost = store[state].Cost + _moves.Apply(_set, ref key, move, _time);
            if (cost >= _bestCost)
            {
                continue;
            }

            var found = Math.Max(least, cost + LeastFrom(_set, key));
            if (found < _bestCost && store.Add(_set, key, cost, _time, state, move) is >= 0 and var added)
            {
                made.Add((found, added));
                Settle(store, added);
            }
        }
    }

    private long LeastFrom(ReadOnlySpan<ulong> done, int key) => Math.Max(_bound.From(done, key), _waits?.From(done, _time) ?? 0);

    /// <summary>Keeps the order that leads to a state when it meets every goal for less than any before.</summary>
    private void Settle(StateStore store, int state)
    {
        if (!_problem.IsMet(store.SetOf(state)))
        {
            return;
        }

        var cost = store[state].Cost + _problem.Change(store[state].Key, _problem.EndKey);
        if (cost < _bestCost)
        {
            _bestCost = cost;
            _best = OrderTo(store, state);
        }
    }

    /// <summary>The order behind a state, each way by its place in the trip rather than in this problem.</summary>
    private IReadOnlyList<OneWayStep> OrderTo(StateStore store, int state)
    {
        var moves = new Stack<OneWayStep>();
        for (; store[state].Parent >= 0; state = store[state].Parent)
        {
            moves.Push(store[state].Move);
        }

        var order = new List<OneWayStep>();
        var done = (ulong[])_problem.Start.Clone();
        var key = _problem.StartKey;
        var time = new OneWayTime(_problem.Runs);
        _moves.PullForward(done, key, time, order);
        foreach (var move in moves)
        {
            _moves.Apply(done, ref key, move, time, order);
        }

        return [.. order.Select(step => step with { Way = _problem.Ways[step.Operation][step.Way].Index })];
    }
}

/// <param name="LowerBound">No order costs less; equal to <paramref name="Cost"/> when that is proven.</param>
/// <param name="States">How many states were kept to find it.</param>
internal sealed record OneWayResult(IReadOnlyList<OneWayStep> Order, long Cost, long LowerBound, int States)
{
    /// <summary>False when the search stopped before it met the goals even once.</summary>
    public bool HasOrder => Cost < long.MaxValue;
}
