namespace Lastoff.Core.Planning;

/// <summary>Searches one direction whose operations can be done in several ways: settles which way is taken where, best bound first.</summary>
internal sealed class OneWaySplit
{
    /// <summary>What a first look at one choice of ways takes.</summary>
    private const int StatesOfALook = 12_000;

    /// <summary>With no way open a search goes on by so many times as many states whenever its bound is the least.</summary>
    private const int MoreStates = 3;

    private const int StatesOfABound = 2000;

    /// <summary>One part in so many goes to a better order of the steps found first. In a long problem it is half: there wide beams do it, and little else helps.</summary>
    private const int OrderShare = 8;

    private const int TableEntriesOfALook = 200;

    private readonly Func<ClosedWays, OneWay?> _build;
    private readonly int _limit;
    private readonly int _entries;
    private readonly long _dear;
    private readonly StaySearches _begun;
    /// <summary>In a long problem a look sees hardly more than the bound, and takes much longer.</summary>
    private readonly bool _isLong;
    private readonly Patience _patience;
    private readonly PriorityQueue<Node, (long Bound, int Number)> _waiting = new();
    private OneWayResult _best;
    private int _number;

    private OneWaySplit(Func<ClosedWays, OneWay?> build, bool isLong, OneWayResult best, int limit, int entries, long dear, StaySearches begun, Patience patience)
    {
        _isLong = isLong;
        _dear = dear;
        _begun = begun;
        _build = build;
        _best = best;
        _limit = limit;
        _entries = entries;
        _patience = patience;
    }

    /// <summary>Whether a way of an operation, by its place in the trip, may not be taken.</summary>
    public delegate bool ClosedWays(int operation, int way);

    /// <param name="build">The direction with some ways closed; null when its goals cannot be met then.</param>
    /// <param name="known">An order that is known to be legal, to start from; null when there is none.</param>
    /// <param name="dear">An order that costs this or more is of no use, so a bound that reaches it is enough.</param>
    /// <returns>Null when the goals cannot be met.</returns>
    public static OneWayResult? Run(Func<ClosedWays, OneWay?> build, int limit, int entries, IReadOnlyList<OneWayStep>? known, long dear, StaySearches begun, Patience patience)
    {
        if (build((_, _) => false) is not { } whole)
        {
            return null;
        }

        var landmarks = new Landmarks(whole);
        if (limit <= OneWaySearch.FewStates || !OpenWays(whole, landmarks).Any() || StayProblem.Of(whole, landmarks) is null)
        {
            return OneWaySearch.Run(whole, limit, entries, known, dear, begun, patience);
        }

        var isLong = Bits.Count(landmarks.Forced) > StaySearch.ManyLandmarks;
        var look = OneWaySearch.Run(whole, Math.Min(limit, StatesOfALook), entries, known, dear, begun, patience);
        if (look.LowerBound < Math.Min(look.Cost, dear) && look.HasOrder)
        {
            look = Improved(look);
        }

        return look.LowerBound >= Math.Min(look.Cost, dear) || look.States >= limit || patience.IsOver ? look : new OneWaySplit(build, isLong, look, limit, entries, dear, begun, patience).Run();

        // With every way fixed to the one it took there is nothing left to choose, and the search of stays finds a better order of the same steps.
        OneWayResult Improved(OneWayResult found)
        {
            var taken = found.Order.ToHashSet();
            if (build((operation, way) => !taken.Contains(new OneWayStep(operation, way))) is not { } same)
            {
                return found;
            }

            var better = OneWaySearch.Run(same, Math.Max(limit / (isLong ? 2 : OrderShare), StatesOfABound), entries, found.Order, dear, begun, patience);
            return (better.Cost < found.Cost ? better with { LowerBound = found.LowerBound } : found) with { States = found.States + better.States };
        }
    }

    /// <summary>A bound that reaches this has nothing more to tell.</summary>
    private long Enough => Math.Min(_best.Cost, _dear);

    private OneWayResult Run()
    {
        var bound = long.MaxValue;
        Wait(new Node([], _best.LowerBound, IsLookedAt: true));
        while (_waiting.TryDequeue(out var node, out _))
        {
            if (node.Bound >= Enough)
            {
                break;
            }

            if (_best.States >= _limit || _patience.IsOver)
            {
                bound = Math.Min(bound, node.Bound);
                break;
            }

            if (!node.IsLookedAt)
            {
                Search(node, StatesOfALook, found => Wait(node with { Bound = Math.Max(node.Bound, found), IsLookedAt = true }));
            }
            else if (Settle(node) is { } settled)
            {
                if (settled.Split is { } way && !_patience.IsOver)
                {
                    Divide(settled.Node, way);
                }
                else
                {
                    node = settled.Node;
                    Search(node, node.States, found => Wait(node with { Bound = Math.Max(node.Bound, found), States = MoreStates * node.States }));
                    if (node.States >= _limit)
                    {
                        // More states tell no more here: what is open is which of several operations is done, and that is settled for both directions together.
                        bound = _waiting.TryPeek(out _, out var least) ? least.Bound : bound;
                        break;
                    }
                }
            }
        }

        return _best with { LowerBound = Math.Min(bound, Enough) };
    }

    private void Search(Node node, int states, Action<long> bounded)
    {
        if (Build(node) is not { } problem)
        {
            return;
        }

        var found = OneWaySearch.Run(problem, states, _entries, _best.HasOrder ? _best.Order : null, Enough, _begun, _patience);
        _best = (found.Cost < _best.Cost ? found : _best) with { States = _best.States + found.States };
        bounded(found.LowerBound);
    }

    /// <summary>Closes every way that cannot be better than what is known, and all others of an operation whose way must be; says on which of the others to split.</summary>
    private (Node Node, (int Operation, int Way)? Split)? Settle(Node node)
    {
        (int Operation, int Way)? split = null;
        var most = -1L;
        foreach (var way in Build(node) is { } problem ? OpenWays(problem, new Landmarks(problem)) : [])
        {
            _patience.Cancel.ThrowIfCancellationRequested();
            if (_patience.IsOver)
            {
                break;
            }

            var (taken, left) = (Bounded(node.Taking(way)), Bounded(node.Closing(way)));
            if (taken.Bound >= Enough || left.Bound >= Enough)
            {
                node = taken.Bound < left.Bound ? taken : left;
            }
            else if (Math.Min(taken.Bound, left.Bound) > most)
            {
                (split, most) = (way, Math.Min(taken.Bound, left.Bound));
            }
        }

        return node.Bound < Enough ? (node, split) : null;
    }

    private void Divide(Node node, (int Operation, int Way) way)
    {
        Wait(Bounded(node.Taking(way)) with { IsLookedAt = _isLong });
        Wait(Bounded(node.Closing(way)) with { IsLookedAt = _isLong });
    }

    private void Wait(Node node) => _waiting.Enqueue(node, (node.Bound, _number++));

    private Node Bounded(Node node) => Build(node) is { } problem ? node with { Bound = Math.Max(node.Bound, LeastOf(problem, _begun, _patience)) } : node with { Bound = long.MaxValue };

    private OneWay? Build(Node node) => _build((operation, way) => node.Choices.Any(choice => choice.Operation == operation && choice.Way == way != choice.IsTaken));

    /// <summary>A bound that takes little.</summary>
    public static long LeastOf(OneWay problem, StaySearches begun, Patience patience)
    {
        var landmarks = new Landmarks(problem);
        return StayProblem.Of(problem, landmarks) is { } stays
            ? new OneWayBound(problem, landmarks, 0).From(problem.Start, problem.StartKey) + begun.LeastOf(stays, TableEntriesOfALook, StatesOfABound, patience)
            : new OneWayBound(problem, landmarks, TableEntriesOfALook).From(problem.Start, problem.StartKey);
    }

    /// <summary>The ways of every landmark that can still be done in several; the last way follows from the others.</summary>
    private static IEnumerable<(int Operation, int Way)> OpenWays(OneWay problem, Landmarks landmarks)
    {
        for (var operation = Bits.Next(landmarks.Forced, 0); operation >= 0; operation = Bits.Next(landmarks.Forced, operation + 1))
        {
            foreach (var way in problem.Ways[operation].SkipLast(1))
            {
                yield return (operation, way.Index);
            }
        }
    }

    /// <summary>All orders in which some ways are taken, and some are not.</summary>
    private sealed record Node(IReadOnlyList<(int Operation, int Way, bool IsTaken)> Choices, long Bound, bool IsLookedAt)
    {
        /// <summary>How many states the next search may keep once no way is open: the bound that is least gets on first.</summary>
        public int States { get; init; } = StatesOfALook;

        public Node Taking((int Operation, int Way) way) => this with { Choices = [.. Choices, (way.Operation, way.Way, true)] };

        public Node Closing((int Operation, int Way) way) => this with { Choices = [.. Choices, (way.Operation, way.Way, false)] };
    }
}
