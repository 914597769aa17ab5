namespace Lastoff.Core.Planning;

/// <summary>Finds the cheapest order when nothing but the order is left to choose: improves one by swaps, then goes depth first through what could be cheaper.</summary>
/// <remarks>
/// What is known of every set done and last operation is kept: the least that going on from there costs. Met again, it is gone into only if that could
/// still lead to something better. The number of states limits it, never a time; stopped early, its bound is the least of all that was left.
/// </remarks>
internal sealed class OrderSearch
{
    /// <summary>What share of the states improving may take, one over this.</summary>
    private const int ShareOfSwaps = 2;

    private readonly OrderProblem _problem;
    private readonly AssignmentBound _bound;
    private readonly Assignment[] _assigned;
    private readonly List<(long Least, int Next)>[] _moves;
    private readonly SetIndex _known;
    private readonly List<long> _toGo = [];
    private readonly ulong[] _done;
    private readonly int[] _round;
    private readonly int _limit;
    private readonly CancellationToken _cancel;
    private int[] _best;
    private long _bestCost;
    private int _states;

    private OrderSearch(OrderProblem problem, int[] best, int limit, CancellationToken cancel)
    {
        _problem = problem;
        var cuts = OrderCuts.Of(problem, cancel);
        _bound = new AssignmentBound(cuts.Rest, problem.Ends);
        _assigned = [_bound.Root(), .. Enumerable.Range(0, problem.Ends).Select(_ => new Assignment(problem.Ends + 1))];
        _assigned[0].Cost += cuts.Due;
        _moves = [.. Enumerable.Range(0, problem.Ends).Select(_ => new List<(long, int)>())];
        _known = new SetIndex(problem.Words);
        _done = new ulong[problem.Words];
        _round = [.. Enumerable.Repeat(problem.Ends, problem.Ends + 2)];
        _limit = limit;
        _cancel = cancel;
        _best = best;
        _bestCost = problem.CostOf(best);
    }

    /// <param name="known">A legal order to start from, or null when there is none.</param>
    public static OneWayResult Run(OrderProblem problem, int limit, IReadOnlyList<OneWayStep>? known, CancellationToken cancel)
    {
        var start = known is null ? problem.Nearest() : problem.RoundOf(known);
        var kicks = limit / ShareOfSwaps / problem.Ends;
        var search = new OrderSearch(problem, new OrderImprover(problem, start).Run(kicks, cancel), limit, cancel) { _states = kicks * problem.Ends };
        var bound = search._assigned[0].Cost < search._bestCost ? search.From(0, 0) : search._bestCost;
        return new OneWayResult(problem.StepsOf(search._best), problem.Work + search._bestCost, problem.Work + Math.Min(bound, search._bestCost), search._states);
    }

    /// <summary>Searches all orders that begin as the round does up to a place; returns what they cost at least.</summary>
    private long From(int place, long cost)
    {
        _cancel.ThrowIfCancellationRequested();
        var last = _round[place];
        if (place == _problem.Ends)
        {
            return Keep(cost + _problem.Arc(last, _problem.Ends));
        }

        var moves = FindMoves(place);
        var least = long.MaxValue;
        foreach (var (bound, next) in moves)
        {
            if (bound >= _bestCost || _states >= _limit)
            {
                least = Math.Min(least, bound);
                break;
            }

            _states++;
            Bits.Add(_done, next);
            _round[place + 1] = next;
            least = Math.Min(least, Next(place + 1, cost + _problem.Arc(last, next), bound));
            _done[next >> 6] &= ~(1UL << next);
        }

        return least;
    }

    private long Next(int place, long cost, long bound)
    {
        var known = _known.Find(_done, _round[place]);
        if (known >= 0 && cost + _toGo[known] is var again && again >= _bestCost)
        {
            return again;
        }

        var (before, after) = (_assigned[place - 1], _assigned[place]);
        _bound.Settle(before, after, _round[place - 1], _round[place], _bestCost);
        bound = Math.Max(bound, after.Cost);
        if (bound >= _bestCost)
        {
            return bound;
        }

        bound = Math.Max(bound, From(place, cost));
        if (known < 0)
        {
            known = _known.Add(_done, _round[place]);
            _toGo.Add(0);
        }

        _toGo[known] = Math.Max(_toGo[known], bound - cost);
        return bound;
    }

    private List<(long Least, int Next)> FindMoves(int place)
    {
        var (moves, assigned) = (_moves[place], _assigned[place]);
        moves.Clear();
        for (var at = 0; at < assigned.OpenCount; at++)
        {
            var next = assigned.Open[at];
            if (next != _problem.Ends && Bits.IsSubset(_problem.Before[next], _done))
            {
                moves.Add((assigned.Cost + _bound.More(assigned, _round[place], next), next));
            }
        }

        moves.Sort();
        return moves;
    }

    private long Keep(long cost)
    {
        if (cost < _bestCost)
        {
            _bestCost = cost;
            _best = [.. _round];
        }

        return cost;
    }
}
