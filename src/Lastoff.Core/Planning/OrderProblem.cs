namespace Lastoff.Core.Planning;

/// <summary>One direction in which everything that may be done must be done, each in one way: only the order is left to find.</summary>
/// <remarks>
/// The operations are numbered anew from 0; <see cref="Ends"/> stands for the start as the first of an arc and for the end as the second, so that
/// an order is a round that begins and ends there.
/// </remarks>
internal sealed class OrderProblem
{
    /// <summary>What an arc costs that no order has: more than any order, and far from overflowing a sum.</summary>
    public const long Barred = 1L << 50;

    private readonly OneWay _problem;
    private readonly int[] _operation;
    private readonly long[] _arcs;

    private OrderProblem(OneWay problem, Landmarks landmarks)
    {
        _problem = problem;
        _operation = [.. Enumerable.Range(0, problem.Operations).Where(operation => Bits.Has(problem.Allowed, operation))];
        Ends = _operation.Length;
        Words = (Ends + 63) / 64;
        Before = new ulong[Ends][];
        After = new ulong[Ends][];
        _arcs = new long[(Ends + 1) * (Ends + 1)];
        for (var i = 0; i < Ends; i++)
        {
            Before[i] = new ulong[Words];
            After[i] = new ulong[Words];
        }

        for (var i = 0; i < Ends; i++)
        {
            Work += problem.Ways[_operation[i]][0].Cost;
            for (var j = 0; j < Ends; j++)
            {
                if (i != j && Bits.Has(landmarks.UpTo(_operation[i]), _operation[j]))
                {
                    Bits.Add(Before[i], j);
                    Bits.Add(After[j], i);
                }
            }
        }

        for (var i = 0; i <= Ends; i++)
        {
            for (var j = 0; j <= Ends; j++)
            {
                _arcs[i * (Ends + 1) + j] = MayFollow(i, j) ? problem.Change(KeyOf(i, problem.StartKey), KeyOf(j, problem.EndKey)) : Barred;
            }
        }
    }

    /// <summary>How many operations there are, and the number of the start and of the end.</summary>
    public int Ends { get; }

    public int Words { get; }

    /// <summary>What all operations cost, whatever their order.</summary>
    public long Work { get; }

    /// <summary>What must be done before each operation, at once or by way of others.</summary>
    public ulong[][] Before { get; }

    public ulong[][] After { get; }

    /// <summary>The problem as one of order alone, or null when it leaves more to choose.</summary>
    public static OrderProblem? Of(OneWay problem, Landmarks landmarks) =>
        Bits.Count(problem.Allowed) > 0
        && problem.Runs.Waits.Count == 0
        && problem.PairedFirst.All(first => first < 0)
        && problem.HasNoChoice(landmarks)
            ? new OrderProblem(problem, landmarks)
            : null;

    /// <summary>What changing from one operation to the next costs; <see cref="Barred"/> or more when they never come right after each other.</summary>
    public long Arc(int from, int to) => _arcs[from * (Ends + 1) + to];

    public ReadOnlySpan<long> ArcsFrom(int from) => _arcs.AsSpan(from * (Ends + 1), Ends + 1);

    /// <summary>The set-ups of a round that begins and ends with <see cref="Ends"/>.</summary>
    public long CostOf(ReadOnlySpan<int> round)
    {
        var cost = 0L;
        for (var at = 1; at < round.Length; at++)
        {
            cost += Arc(round[at - 1], round[at]);
        }

        return cost;
    }

    public int[] RoundOf(IReadOnlyList<OneWayStep> order) =>
        [Ends, .. order.Where(step => Bits.Has(_problem.Allowed, step.Operation)).Select(step => Array.IndexOf(_operation, step.Operation)), Ends];

    public IReadOnlyList<OneWayStep> StepsOf(IReadOnlyList<int> round) =>
        [.. round.Where(i => i != Ends).Select(i => new OneWayStep(_operation[i], _problem.Ways[_operation[i]][0].Index))];

    /// <summary>The round that always goes on to the nearest operation that is open.</summary>
    public int[] Nearest()
    {
        var round = new List<int> { Ends };
        var done = new ulong[Words];
        while (round.Count <= Ends)
        {
            var next = Enumerable.Range(0, Ends).Where(i => !Bits.Has(done, i) && Bits.IsSubset(Before[i], done)).MinBy(i => Arc(round[^1], i));
            Bits.Add(done, next);
            round.Add(next);
        }

        return [.. round, Ends];
    }

    private int KeyOf(int i, int atEnds) => i == Ends ? atEnds : _problem.Ways[_operation[i]][0].Key;

    /// <summary>Not against what must come before, and nothing must lie between.</summary>
    private bool MayFollow(int first, int second) =>
        (first == Ends, second == Ends) switch
        {
            (true, true) => false,
            (true, false) => Bits.Count(Before[second]) == 0,
            (false, true) => Bits.Count(After[first]) == 0,
            _ => first != second && !Bits.Has(Before[first], second) && !Bits.Overlap(After[first], Before[second]),
        };
}
