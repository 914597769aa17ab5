namespace Lastoff.Core.Planning;

/// <summary>What an order costs at least when every operation only needs some next one: the cheapest assignment of each to its next.</summary>
/// <remarks>
/// Solved with prices on both sides (the Hungarian method): no arc costs less than its two prices together, and those assigned cost exactly that.
/// When the next of one more operation is settled, only the one that loses its own has to look again, along a single cheapest chain of changes.
/// </remarks>
internal sealed class AssignmentBound
{
    private readonly long[] _arcs;
    private readonly int _ends;
    private readonly long[] _distance;
    private readonly int[] _via;

    /// <param name="arcs">What every arc costs, row after row, none less than nothing.</param>
    /// <param name="ends">The number of the start and of the end.</param>
    public AssignmentBound(long[] arcs, int ends)
    {
        _arcs = arcs;
        _ends = ends;
        _distance = new long[_ends + 1];
        _via = new int[_ends + 1];
    }

    /// <summary>The cheapest assignment with nothing settled.</summary>
    public Assignment Root()
    {
        var root = new Assignment(_ends + 1);
        for (var to = 0; to <= _ends; to++)
        {
            root.Open[root.OpenCount++] = to;
        }

        for (var from = 0; from <= _ends; from++)
        {
            root.Cost += Assign(root, from, long.MaxValue);
        }

        return root;
    }

    /// <summary>How much more the assignment costs at least when this is the next one after that.</summary>
    public long More(Assignment assignment, int from, int to) => _arcs[from * (_ends + 1) + to] - assignment.Price[from] - assignment.PriceAsNext[to];

    /// <summary>Settles what comes next and assigns the rest again.</summary>
    /// <param name="enough">A cost from which on it may stop; then only the cost of <paramref name="after"/> holds.</param>
    public void Settle(Assignment before, Assignment after, int from, int to, long enough)
    {
        after.CopyFrom(before, without: to);
        after.Cost += More(before, from, to);
        if (before.NextOf[from] == to)
        {
            return;
        }

        var loser = before.BeforeOf[to];
        after.BeforeOf[before.NextOf[from]] = -1;
        after.Cost += Assign(after, loser, enough - after.Cost);
    }

    /// <summary>Assigns one more along the cheapest chain of changes, and returns what that adds.</summary>
    private long Assign(Assignment a, int from, long enough)
    {
        var columns = a.Open.AsSpan(0, a.OpenCount);
        // Those from `left` on have been gone through.
        var left = columns.Length;
        foreach (var to in columns)
        {
            _distance[to] = long.MaxValue;
        }

        var (row, soFar) = (from, 0L);
        while (true)
        {
            var arcs = _arcs.AsSpan(row * (_ends + 1), _ends + 1);
            var least = long.MaxValue;
            var nearest = -1;
            var spent = soFar - a.Price[row];
            for (var at = 0; at < left; at++)
            {
                var to = columns[at];
                var distance = spent + arcs[to] - a.PriceAsNext[to];
                if (distance < _distance[to])
                {
                    _distance[to] = distance;
                    _via[to] = row;
                }

                if (_distance[to] < least)
                {
                    (least, nearest) = (_distance[to], at);
                }
            }

            if (least >= enough)
            {
                return least;
            }

            soFar = least;
            var found = columns[nearest];
            left--;
            (columns[nearest], columns[left]) = (columns[left], found);
            row = a.BeforeOf[found];
            if (row < 0)
            {
                Charge(a, columns[(left + 1)..], from, soFar);
                Change(a, found, from);
                return soFar;
            }
        }
    }

    /// <summary>Moves the prices along, so that the chain costs nothing more than its prices.</summary>
    private void Charge(Assignment a, ReadOnlySpan<int> gone, int from, long total)
    {
        a.Price[from] += total;
        foreach (var to in gone)
        {
            var change = total - _distance[to];
            a.PriceAsNext[to] -= change;
            a.Price[a.BeforeOf[to]] += change;
        }
    }

    private void Change(Assignment a, int to, int from)
    {
        for (var row = -1; row != from;)
        {
            row = _via[to];
            a.BeforeOf[to] = row;
            (a.NextOf[row], to) = (to, a.NextOf[row]);
        }
    }
}

/// <summary>Which operation comes next after which, and the prices that prove it cheapest; the settled part is in the cost alone.</summary>
internal sealed class Assignment
{
    public Assignment(int size)
    {
        Price = new long[size];
        PriceAsNext = new long[size];
        NextOf = new int[size];
        BeforeOf = new int[size];
        Open = new int[size];
        Array.Fill(NextOf, -1);
        Array.Fill(BeforeOf, -1);
    }

    public long[] Price { get; }
    public long[] PriceAsNext { get; }
    public int[] NextOf { get; }
    public int[] BeforeOf { get; }
    /// <summary>What is not yet settled as the next of anything: the first <see cref="OpenCount"/> of these.</summary>
    public int[] Open { get; }
    public int OpenCount { get; set; }
    public long Cost { get; set; }

    public void CopyFrom(Assignment other, int without)
    {
        other.Price.CopyTo(Price, 0);
        other.PriceAsNext.CopyTo(PriceAsNext, 0);
        other.NextOf.CopyTo(NextOf, 0);
        other.BeforeOf.CopyTo(BeforeOf, 0);
        Cost = other.Cost;
        OpenCount = 0;
        for (var at = 0; at < other.OpenCount; at++)
        {
            if (other.Open[at] != without)
            {
                Open[OpenCount++] = other.Open[at];
            }
        }
    }
}
