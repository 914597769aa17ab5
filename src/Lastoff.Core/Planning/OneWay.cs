using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>Half of a round trip, compiled for the search: from a start, do what meets the goals, in the cheapest order.</summary>
/// <remarks>
/// The way back from a set is a legal order of that set read backwards, so it is the same problem with the set-ups turned round: it begins
/// with any key in hand and ends by changing to the key that the way back starts with.
/// Operations that can never be done, or that nothing here could want, are left out when it is built.
/// </remarks>
internal sealed class OneWay
{
    public const int AnyKey = -1;

    private OneWay(int operations, long[,] setUp, int startKey, int endKey)
    {
        Operations = operations;
        Words = (operations + 63) / 64;
        SetUp = setUp;
        StartKey = startKey;
        EndKey = endKey;
        Start = new ulong[Words];
        Allowed = new ulong[Words];
        Ways = new OneWayWay[operations][];
        BarredBy = new int[operations];
        PairedFirst = new int[operations];
        Shared = new long[operations];
        SharedOwed = new long[operations];
    }

    public int Operations { get; }
    public int Words { get; }
    public long[,] SetUp { get; }
    public int StartKey { get; }
    public int EndKey { get; }
    public ulong[] Start { get; }
    /// <summary>What may be done: possible, and of use to some goal.</summary>
    public ulong[] Allowed { get; }
    public OneWayWay[][] Ways { get; }
    public ulong[][] Goals { get; private set; } = [];
    /// <summary>The operation after which this one can no longer be done, or -1.</summary>
    public int[] BarredBy { get; }
    /// <summary>The operation that this one bars, or -1.</summary>
    public int[] PairedFirst { get; }
    /// <summary>What this operation costs less when its <see cref="PairedFirst"/> is done.</summary>
    public long[] Shared { get; }
    /// <summary>What of that passes no time.</summary>
    public long[] SharedOwed { get; }
    /// <summary>Whether no detour over a third key is ever cheaper; only then may work be pulled forward.</summary>
    public bool Triangle { get; private set; }

    /// <summary>What runs by itself in this direction.</summary>
    public OneWayRuns Runs { get; private set; } = OneWayRuns.None;

    /// <summary>What the set-ups consist of, in this direction; empty when that is not known.</summary>
    public IReadOnlyList<SetUpPart> SetUpParts { get; private init; } = [];

    public long Change(int from, int to) => from == AnyKey || to == AnyKey ? 0 : SetUp[from, to];

    public bool IsOpen(OneWayWay way, ReadOnlySpan<ulong> done)
    {
        if (!Bits.IsSubset(way.Must, done))
        {
            return false;
        }

        foreach (var set in way.OneOf)
        {
            if (!Bits.Overlap(set, done))
            {
                return false;
            }
        }

        return true;
    }

    public bool IsBarred(int operation, ReadOnlySpan<ulong> done) =>
        BarredBy[operation] >= 0 && Bits.Has(done, BarredBy[operation]);

    public bool IsMet(ReadOnlySpan<ulong> done)
    {
        foreach (var goal in Goals)
        {
            if (!Bits.Overlap(goal, done))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Does an operation after whatever it must wait for: moves the clock on, and returns what it adds to the cost.</summary>
    public long Do(OneWayStep step, OneWayWay way, ReadOnlySpan<ulong> done, int key, OneWayTime time)
    {
        var isSecond = PairedFirst[step.Operation] >= 0 && Bits.Has(done, PairedFirst[step.Operation]);
        var (shared, owed) = isSecond ? (Shared[step.Operation], SharedOwed[step.Operation]) : (0, 0);
        var before = time.Clock;
        time.Clock = Math.Max(before + Change(key, way.Key), Runs.ReadyAt(step.Operation, time.Ended)) + way.Ticks - (shared - owed);
        Runs.Note(step.Operation, time.Clock, time.Ended);
        return time.Clock - before + way.Cost - way.Ticks - owed;
    }

    /// <summary>Whether all that may be done must be done, each in one way.</summary>
    public bool HasNoChoice(Landmarks landmarks) =>
        Bits.IsSubset(Allowed, landmarks.Forced) && Ways.All(ways => ways.Length <= 1 && ways.All(way => way.OneOf.Length == 0));

    /// <summary>Builds one direction of a trip, or null when its goals cannot all be met.</summary>
    /// <param name="cost">Ticks charged for a way of an operation, by its place among them; null when it may not be taken.</param>
    /// <param name="free">Operations done out of order: they need nothing before them, and nothing that was done in order rests on them.</param>
    public static OneWay? Of(
        RoundTrip trip,
        bool outward,
        OperationSet start,
        IEnumerable<OperationSet> goals,
        OperationSet allowed,
        OperationSet free,
        Func<int, int, long?> cost)
    {
        var setUp = outward ? trip.SetUp : Turned(trip.BackSetUp ?? trip.SetUp);
        var problem = new OneWay(trip.Ways.Count, setUp, outward ? trip.StartKey : AnyKey, outward ? AnyKey : trip.StartKey)
        {
            Triangle = TriangleHolds(setUp),
            SetUpParts = trip.BackSetUp is not null ? [] : outward ? trip.SetUpParts : [.. trip.SetUpParts.Select(part => part with { Change = Turned(part.Change) })],
        };
        Fill(problem.Start, start);
        Array.Fill(problem.BarredBy, -1);
        Array.Fill(problem.PairedFirst, -1);
        foreach (var pair in trip.Pairs)
        {
            problem.BarredBy[pair.First] = pair.Then;
            problem.PairedFirst[pair.Then] = pair.First;
            problem.Shared[pair.Then] = outward ? pair.SharedOut : pair.SharedBack;
            problem.SharedOwed[pair.Then] = outward ? 0 : pair.SharedOwed;
        }

        return problem.Compile(trip, outward, [.. goals.Select(problem.Pack)], problem.Pack(allowed), free, cost) ? problem : null;
    }

    private bool Compile(RoundTrip trip, bool outward, ulong[][] goals, ulong[] allowed, OperationSet free, Func<int, int, long?> cost)
    {
        for (var i = 0; i < Operations; i++)
        {
            var operation = i;
            Ways[i] = Bits.Has(Start, i) ? [] : [.. trip.Ways[i].Select((way, at) => (Way: way, At: at, Cost: cost(operation, at))).Where(way => way.Cost is not null).Select(way => OneWayWay.Of(
                way.At, way.Way.Key, way.Cost!.Value, outward ? way.Way.Out : way.Way.Back - way.Way.Owed, free.Contains(operation) ? [] : way.Way.Needs.Select(need => Pack(need.Except(free))), Start))];
        }

        var possible = Possible(allowed);
        foreach (var goal in goals)
        {
            Bits.KeepOnly(goal, possible);
        }

        if (goals.Any(goal => Bits.Count(goal) == 0))
        {
            return false;
        }

        for (var i = 0; i < Operations; i++)
        {
            Ways[i] = Bits.Has(possible, i) ? [.. Ways[i].Select(way => way.Within(possible)).OfType<OneWayWay>()] : [];
        }

        Goals = [.. goals.Where(goal => !Bits.Overlap(goal, Start))];
        foreach (var goal in Goals)
        {
            Want(goal);
        }

        for (var i = 0; i < Operations; i++)
        {
            if (!Bits.Has(Allowed, i))
            {
                Ways[i] = [];
            }
        }

        Runs = new OneWayRuns(trip, outward, Allowed);
        return true;
    }

    private ulong[] Possible(ulong[] allowed)
    {
        var done = (ulong[])Start.Clone();
        for (var moved = true; moved;)
        {
            moved = false;
            for (var i = Bits.Next(allowed, 0); i >= 0; i = Bits.Next(allowed, i + 1))
            {
                if (!Bits.Has(done, i) && Ways[i].Any(way => IsOpen(way, done)))
                {
                    Bits.Add(done, i);
                    moved = true;
                }
            }
        }

        return done;
    }

    private void Want(ulong[] set)
    {
        for (var i = Bits.Next(set, 0); i >= 0; i = Bits.Next(set, i + 1))
        {
            if (!Bits.Has(Allowed, i) && !Bits.Has(Start, i))
            {
                Bits.Add(Allowed, i);
                foreach (var way in Ways[i])
                {
                    Want(way.Must);
                    foreach (var oneOf in way.OneOf)
                    {
                        Want(oneOf);
                    }
                }
            }
        }
    }

    private ulong[] Pack(OperationSet set)
    {
        var words = new ulong[Words];
        Fill(words, set);
        return words;
    }

    private static void Fill(ulong[] words, OperationSet set)
    {
        foreach (var member in set)
        {
            Bits.Add(words, member);
        }
    }

    private static long[,] Turned(long[,] setUp)
    {
        var keys = setUp.GetLength(0);
        var turned = new long[keys, keys];
        for (var a = 0; a < keys; a++)
        {
            for (var b = 0; b < keys; b++)
            {
                turned[a, b] = setUp[b, a];
            }
        }

        return turned;
    }

    private static bool TriangleHolds(long[,] setUp)
    {
        var keys = setUp.GetLength(0);
        for (var a = 0; a < keys; a++)
        {
            if (setUp[a, a] != 0)
            {
                return false;
            }

            for (var b = 0; b < keys; b++)
            {
                for (var c = 0; c < keys; c++)
                {
                    if (setUp[a, b] + setUp[b, c] < setUp[a, c])
                    {
                        return false;
                    }
                }
            }
        }

        return true;
    }
}

/// <param name="Index">Its place among the ways of its operation.</param>
/// <param name="Cost">What it is charged with, set-ups and waits apart.</param>
/// <param name="Ticks">How long it takes.</param>
/// <param name="Must">Operations that must all be done before.</param>
/// <param name="OneOf">Sets of which at least one operation must be done before.</param>
internal sealed record OneWayWay(int Index, int Key, long Cost, long Ticks, ulong[] Must, ulong[][] OneOf)
{
    public static OneWayWay Of(int index, int key, long cost, long ticks, IEnumerable<ulong[]> needs, ulong[] done)
    {
        var must = new ulong[done.Length];
        var oneOf = new List<ulong[]>();
        foreach (var need in needs.Where(need => !Bits.Overlap(need, done)))
        {
            if (Bits.Count(need) == 1)
            {
                Bits.AddAll(must, need);
            }
            else
            {
                oneOf.Add(need);
            }
        }

        return new OneWayWay(index, key, cost, ticks, must, [.. oneOf]);
    }

    /// <summary>The same way with what cannot be done left out, or null when it can then never be open.</summary>
    public OneWayWay? Within(ulong[] possible)
    {
        if (!Bits.IsSubset(Must, possible) || OneOf.Any(set => !Bits.Overlap(set, possible)))
        {
            return null;
        }

        foreach (var set in OneOf)
        {
            Bits.KeepOnly(set, possible);
        }

        var narrowed = Of(Index, Key, Cost, Ticks, OneOf, new ulong[Must.Length]);
        Bits.AddAll(narrowed.Must, Must);
        return narrowed;
    }
}
