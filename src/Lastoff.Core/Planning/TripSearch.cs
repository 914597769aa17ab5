using System.Globalization;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>Solves a round trip: which operations to do, in which order out, and in which order back, for the least cost of both together.</summary>
/// <remarks>
/// Each direction is searched on its own, with the work of every operation shared between the two, so that the sum of the two least costs
/// is a bound on the whole. When both directions choose the same operations that sum is also reached. When they differ, the trip is split on
/// one operation they differ in: with it, and without it.
/// </remarks>
public sealed class TripSearch
{
    /// <summary>What the first look takes: enough for a good trip, with which most choices can be settled before the search proper.</summary>
    private const int QuickStates = 12_000;

    /// <summary>A node that is not solved by the states of one visit gets so many times as many for the next, up to its share.</summary>
    private const int MoreStates = 6;

    private const int TableEntries = 1000;

    private const int TableEntriesOfALook = 200;

    /// <summary>With more operations than this, a look with few entries sees too little to be worth having.</summary>
    private const int ManyOperations = 200;

    private readonly RoundTrip _trip;
    private readonly Patience _patience;
    private readonly OperationSet _none;
    private readonly OperationSet _all;
    private readonly long[] _shift;
    private readonly IReadOnlyList<OneWayStep> _startOrder;
    private readonly int _limit;
    private readonly StaySearches _begun = new();
    private int _left;
    private Candidate? _best;

    private TripSearch(RoundTrip trip, int limit, Patience patience)
    {
        _trip = trip;
        _limit = limit;
        _left = limit;
        _patience = patience;
        _none = OperationSet.Empty(trip.Ways.Count);
        _all = OperationSet.Of(trip.Ways.Count, Enumerable.Range(0, trip.Ways.Count));
        _startOrder = TripOrder.Legal(trip, trip.Start);
        _shift = Shift(trip);
    }

    /// <summary>The best trip found, or null when the goals cannot be met.</summary>
    /// <param name="states">How many states the search may keep; it sets memory and time, and the answer is the same on every machine.</param>
    /// <exception cref="OperationCanceledException">The search was called off.</exception>
    public static Trip? Solve(RoundTrip trip, int states, CancellationToken cancel = default) => Solve(trip, states, CancellationToken.None, cancel);

    /// <summary>The best trip found, or null when the goals cannot be met.</summary>
    /// <param name="enough">Ends the search with the best trip and the best bound it has by then, though not before it has a trip.</param>
    /// <exception cref="OperationCanceledException">The search was called off.</exception>
    public static Trip? Solve(RoundTrip trip, int states, CancellationToken enough, CancellationToken cancel)
    {
        // Without a trip to begin with, enough is never enough.
        var first = enough.CanBeCanceled ? FirstTrip.Of(trip, cancel) : null;
        var search = new TripSearch(trip, states, first is null ? cancel : new Patience(enough, cancel));
        return search._startOrder.Count == trip.Start.Count ? search.Solve(first) : search.SolveOutOfOrder();
    }

    private bool IsSpent => _left <= 0 || _patience.IsOver;

    /// <param name="first">A trip to begin with, so that whenever it is enough there is one.</param>
    private Trip? Solve(Trip? first)
    {
        _best = first is null ? null : new Candidate(Steps(first.Out), [.. Steps(first.Back).Reverse()], first.Cost);
        var waiting = new PriorityQueue<TripNode, (long Bound, int Number)>();
        var number = 0;
        var bound = long.MaxValue;
        waiting.Enqueue(new TripNode(_none, BarredFromTheStart(), first?.LowerBound ?? 0), (0, number));
        while (waiting.TryDequeue(out var node, out _))
        {
            if (node.Bound >= _best?.Cost)
            {
                continue;
            }

            if (IsSpent && _best is not null)
            {
                bound = Math.Min(bound, node.Bound);
                continue;
            }

            foreach (var part in Divide(node, ref bound))
            {
                waiting.Enqueue(part, (part.Bound, ++number));
            }
        }

        return _best is null ? null : Finish(_best, bound, _none, null);

        static IReadOnlyList<OneWayStep> Steps(IEnumerable<TripStep> steps) => [.. steps.Select(step => new OneWayStep(step.Operation, step.Way))];
    }

    /// <summary>Looks into a node; what is left to look into further, and into the bound what is not.</summary>
    private IEnumerable<TripNode> Divide(TripNode node, ref long bound)
    {
        if (!node.IsSettled)
        {
            return Settle(node);
        }

        var share = Choices(node).Any() ? _left / 3 : _left;
        if (Visit(node, Math.Min(share, node.States)) is not { } visit || visit.Bound >= _best?.Cost)
        {
            return [];
        }

        node = node with { Bound = visit.Bound };
        if (node.States < share && !visit.IsExact)
        {
            return [node with { States = MoreStates * node.States }];
        }

        if (visit.Split is { } operation)
        {
            // Half the question is gone: the two halves are seen again from nearer, and both are, before either takes long.
            node = node with { IsSettled = false, States = node.States / MoreStates };
            return [node.Doing(operation), node.LeavingOut(operation)];
        }

        bound = Math.Min(bound, visit.Bound);
        return [];
    }

    /// <summary>Searches both directions under a node's decisions; null when the goals cannot be met under them.</summary>
    /// <param name="states">How many states both may keep; what the way out does not need is the way back's.</param>
    private (long Bound, int? Split, bool IsExact)? Visit(TripNode node, int states)
    {
        var left = _left;
        // A first plan only, or none to beat yet: then the bound of the way back is not worth what it takes.
        long? least = _best is not null && _limit > OneWaySearch.FewStates && BackOf(node)((_, _) => false) is { } homeward ? OneWaySplit.LeastOf(homeward, _begun, _patience) : null;
        var outward = Run(OutOf(node), null, states / 2, least is { } other ? Dear(other) : long.MaxValue);
        states = Math.Max(states / 2, states - (left - _left));
        if (outward is null)
        {
            return null;
        }

        if (!outward.HasOrder || outward.LowerBound + least >= _best?.Cost)
        {
            return (Math.Max(node.Bound, outward.LowerBound + (least ?? 0)), null, false);
        }

        var there = _trip.Start.Union(Done(outward));
        var back = Run(BackOf(node), [.. _startOrder, .. outward.Order], states, Dear(outward.LowerBound));
        if (back is null)
        {
            return null;
        }

        var home = Done(back);
        var bound = Math.Max(node.Bound, outward.LowerBound + back.LowerBound);
        var isExact = outward.LowerBound == outward.Cost && back.LowerBound == back.Cost;
        if (there == home || !back.HasOrder)
        {
            Keep(outward, back);
            return (bound, bound < _best?.Cost ? Choices(node).Select(operation => (int?)operation).FirstOrDefault() : null, isExact);
        }

        Keep(outward, Run(BackProblem(there, [.. there.Select(One)]), [.. _startOrder, .. outward.Order], Math.Min(states, QuickStates)));
        Keep(Run(OutProblem(home, [.. home.Select(One)]), [.. back.Order.Where(step => !_trip.Start.Contains(step.Operation))], Math.Min(states, QuickStates)), back);
        var disputed = there.Except(home).Union(home.Except(there));
        return (bound, disputed.MaxBy(operation => _trip.Ways[operation].Min(way => way.Out + way.Back)), isExact);
    }

    /// <summary>What one direction may cost at most when the other costs so much at least, and both together less than the best trip.</summary>
    private long Dear(long other) => _best is null ? long.MaxValue : _best.Cost - other;

    /// <summary>
    /// Settles every choice of which one side cannot be better than what is known. When two sides of another choice both raise the bound, the
    /// node is split there; when none does, it is ready to be searched.
    /// </summary>
    private IEnumerable<TripNode> Settle(TripNode node)
    {
        if (!node.IsLookedAt)
        {
            if (Visit(node, Math.Min(2 * QuickStates, _left)) is not { } look)
            {
                return [];
            }

            node = node with { Bound = Math.Max(node.Bound, look.Bound), IsLookedAt = true };
        }

        if (IsSpent)
        {
            return [node with { IsSettled = true }];
        }

        (int Operation, long Done, long LeftOut)? split = null;
        foreach (var operation in Choices(node))
        {
            _patience.Cancel.ThrowIfCancellationRequested();
            if (_patience.IsOver)
            {
                break;
            }

            var (with, without) = (Bounded(node.Doing(operation)), Bounded(node.LeavingOut(operation)));
            if (with.Bound >= _best?.Cost || without.Bound >= _best?.Cost)
            {
                node = with.Bound < without.Bound ? with : without;
                if (node.Bound >= _best.Cost)
                {
                    return [];
                }
            }
            else if (Math.Min(with.Bound, without.Bound) > Math.Max(node.Bound, split is { } known ? Math.Min(known.Done, known.LeftOut) : 0))
            {
                split = (operation, with.Bound, without.Bound);
            }
        }

        return split is { } sides
            ? [node.Doing(sides.Operation) with { Bound = sides.Done }, node.LeavingOut(sides.Operation) with { Bound = sides.LeftOut }]
            : [node with { IsSettled = true }];
    }

    /// <summary>The operations that alternatives differ in, of which it is still open whether they are done.</summary>
    private IEnumerable<int> Choices(TripNode node)
    {
        if (OutOf(node)((_, _) => false) is not { } problem)
        {
            return [];
        }

        var open = (ulong[])problem.Allowed.Clone();
        Bits.TakeAway(open, new Landmarks(problem).Forced);
        var named = new ulong[problem.Words];
        foreach (var ways in problem.Ways)
        {
            foreach (var way in ways)
            {
                if (ways.Length > 1)
                {
                    Bits.AddAll(named, way.Must);
                }

                foreach (var set in way.OneOf)
                {
                    Bits.AddAll(named, set);
                }
            }
        }

        Bits.KeepOnly(open, named);
        return Enumerable.Range(0, _all.Count).Where(operation => Bits.Has(open, operation));
    }

    private TripNode Bounded(TripNode node) => node with
    {
        Bound = OutOf(node)((_, _) => false) is { } outward && BackOf(node)((_, _) => false) is { } back
            ? Math.Max(node.Bound, OneWaySplit.LeastOf(outward, _begun, _patience) + OneWaySplit.LeastOf(back, _begun, _patience))
            : long.MaxValue,
    };

    private Func<OneWaySplit.ClosedWays, OneWay?> OutOf(TripNode node) => OutProblem(_all.Except(node.Without), [.. _trip.Goals, .. node.With.Select(One)]);

    private Func<OneWaySplit.ClosedWays, OneWay?> BackOf(TripNode node) =>
        BackProblem(_all.Except(node.Without), [.. _trip.Goals, .. node.With.Select(One), .. _trip.Start.Select(One)]);

    /// <summary>With something done out of order, the way out is planned first, all work charged to it, and the way back from where it ends.</summary>
    private Trip? SolveOutOfOrder()
    {
        var least = _trip.Ways.Select(ways => ways.Min(way => way.Back)).ToArray();
        var outward = Run(closed => OneWay.Of(_trip, true, _trip.Start, _trip.Goals, _all.Except(BarredFromTheStart()), _none,
            (operation, way) => closed(operation, way) ? null : _trip.Ways[operation][way].Out + least[operation]), null, _left / 3);
        if (outward is not { HasOrder: true })
        {
            return null;
        }

        var undone = _trip.Start.Union(Done(outward));
        var inOrder = OperationSet.Of(_all.Count, TripOrder.Legal(_trip, undone).Select(step => step.Operation));
        var free = undone.Except(inOrder);
        var back = Run(closed => OneWay.Of(_trip, false, _none, undone.Select(One), undone, free, (operation, way) => closed(operation, way) ? null : _trip.Ways[operation][way].Back), null, _left / 3);
        var bound = outward.LowerBound + _trip.Start.Sum(operation => least[operation]) - _trip.Pairs.Sum(pair => pair.SharedBack);
        return back is not { HasOrder: true } ? null : Finish(new Candidate(outward.Order, back.Order, 0), bound, free,
            "Something was done out of order, so the way back is a good one but not proven best.");
    }

    private Trip Finish(Candidate best, long bound, OperationSet free, string? because)
    {
        var (outward, back) = TripOrder.Trim(_trip, best.Out, best.Back, free);
        var stepsOut = TripOrder.Out(_trip, outward)!;
        var stepsBack = TripOrder.Back(_trip, back, free)!;
        if (TripOrder.Back(_trip, [.. _startOrder, .. outward], _none) is { } reversed && reversed.Count == stepsBack.Count && TripOrder.Cost(reversed) < TripOrder.Cost(stepsBack))
        {
            stepsBack = reversed;
        }

        var cost = TripOrder.Cost(stepsOut) + TripOrder.Cost(stepsBack);
        bound = Math.Min(bound, cost);
        var end = _patience.IsOver ? "was told to stop" : $"stopped at its limit of {_limit} states";
        return new Trip(stepsOut, stepsBack, cost, bound, bound == cost ? null : because ?? string.Create(CultureInfo.InvariantCulture,
            $"The search {end}; a plan up to {100.0 * (cost - bound) / cost:0.0} % shorter may exist."));
    }

    private void Keep(OneWayResult? outward, OneWayResult? back)
    {
        if (outward is { HasOrder: true } && back is { HasOrder: true } && outward.Cost + back.Cost is var cost && (_best is null || cost < _best.Cost))
        {
            _best = new Candidate(outward.Order, back.Order, cost);
        }
    }

    private OneWayResult? Run(Func<OneWaySplit.ClosedWays, OneWay?> build, IReadOnlyList<OneWayStep>? known, int states, long dear = long.MaxValue)
    {
        var entries = states > QuickStates || _trip.Ways.Count > ManyOperations ? TableEntries : TableEntriesOfALook;
        if (OneWaySplit.Run(build, Math.Max(states, 16), entries, known, dear, _begun, _patience) is not { } result)
        {
            return null;
        }

        _left -= result.States;
        return result.LowerBound == long.MaxValue ? null : result;
    }

    private Func<OneWaySplit.ClosedWays, OneWay?> OutProblem(OperationSet allowed, IReadOnlyList<OperationSet> goals) => closed => OneWay.Of(
        _trip, true, _trip.Start, goals, allowed, _none, (operation, way) => closed(operation, way) ? null : _trip.Ways[operation][way].Out + _shift[operation]);

    private Func<OneWaySplit.ClosedWays, OneWay?> BackProblem(OperationSet allowed, IReadOnlyList<OperationSet> goals) => closed => OneWay.Of(
        _trip, false, _none, goals, allowed, _none, (operation, way) => closed(operation, way) ? null : _trip.Ways[operation][way].Back - _shift[operation]);

    /// <summary>The first of a pair can no longer be done when the second is done already.</summary>
    private OperationSet BarredFromTheStart() => OperationSet.Of(_all.Count,
        _trip.Pairs.Where(pair => _trip.Start.Contains(pair.Then) && !_trip.Start.Contains(pair.First)).Select(pair => pair.First));

    private OperationSet One(int operation) => _none.With(operation);

    private OperationSet Done(OneWayResult result) => OperationSet.Of(_all.Count, result.Order.Select(step => step.Operation));

    /// <summary>How much work of each operation moves from the way back to the way out, so that both weigh every alternative alike.</summary>
    /// <remarks>None where there are waits: work done in a wait takes no time, and with a share moved to the other way it would seem to give some back.</remarks>
    private static long[] Shift(RoundTrip trip)
    {
        var shift = new long[trip.Ways.Count];
        for (var i = 0; i < shift.Length && trip.Lags.Count == 0; i++)
        {
            if (!trip.Start.Contains(i))
            {
                var shared = trip.Pairs.Where(pair => pair.First == i || pair.Then == i).Sum(pair => pair.SharedBack - pair.SharedOut);
                shift[i] = (trip.Ways[i].Min(way => way.Back) - shared - trip.Ways[i].Min(way => way.Out)) / 2;
            }
        }

        return shift;
    }

    private sealed record Candidate(IReadOnlyList<OneWayStep> Out, IReadOnlyList<OneWayStep> Back, long Cost);
}
