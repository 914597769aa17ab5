namespace Lastoff.Core.Planning;

/// <summary>What the set-ups still cost at least, as a sum of tables: one for each tool at each place, and what the changes of place cost at least.</summary>
internal sealed class StayTables
{
    /// <summary>How many times the entries of another the table of all places may have: cut short, it gives away most.</summary>
    private const int PlaceEntries = 10;

    private readonly StayProblem _problem;
    private readonly int[] _order;
    private readonly ulong[][] _followers;
    private readonly int[][] _keysOf;
    private readonly VisitTable[] _uses;
    private readonly VisitTable _places;
    /// <summary>The same once more, in two shares: what a change between distant places costs beyond one between near places, and the rest. Empty when all are alike.</summary>
    private readonly VisitTable[] _shares;
    private readonly ulong[] _left;

    /// <param name="entries">How many entries a table may have.</param>
    public StayTables(StayProblem problem, int entries)
    {
        _problem = problem;
        _left = new ulong[problem.Words];
        Use = Math.Min(problem.Take, Nearest(problem.Go));
        Go = Beyond(problem.Go, (_, _) => Use);
        var count = problem.Needs.Length;
        _order = [.. Enumerable.Range(0, count).OrderByDescending(i => Bits.Count(problem.Needs[i])).ThenBy(i => i)];
        _followers = Followers(problem);
        _keysOf = [.. Enumerable.Range(0, count).Select(i => problem.At.SelectMany(uses => uses).Where(use => Bits.Has(use.Work, i)).Select(KeyOf).ToArray())];
        _uses = [.. problem.Uses.Select(use => Table(key => key == KeyOf(use) ? 0 : 1, new[,] { { 0, 0 }, { Use, 0 } }, -1, entries))];
        _places = OfPlaces(Go, entries);
        _shares = [.. Shares(entries)];
    }

    /// <summary>The ticks that a use is charged with wherever it comes.</summary>
    public long Use { get; }

    /// <summary>The ticks that a change of place is charged with beyond that.</summary>
    public long[,] Go { get; }

    public long From(ReadOnlySpan<ulong> done, int place)
    {
        for (var i = 0; i < _left.Length; i++)
        {
            _left[i] = _problem.All[i] & ~done[i];
        }

        if (Bits.Next(_left, 0) < 0)
        {
            return _problem.End < 0 ? 0 : Go[place, _problem.End];
        }

        return Math.Max(_places.From(_left, place), Sum(_shares, place)) + Sum(_uses, place);
    }

    private long Sum(VisitTable[] tables, int place)
    {
        var sum = 0L;
        foreach (var table in tables)
        {
            sum += table.From(_left, place);
        }

        return sum;
    }

    /// <summary>A key here is a tool at a place; the first keys are the bare hand's.</summary>
    private int KeyOf(StayUse use) => use.Tool * _problem.Places + use.Place;

    private VisitTable Table(Func<int, int> classOf, long[,] change, int end, int entries) =>
        new([.. Enumerable.Range(0, _problem.Tools * _problem.Places).Select(classOf)], change, end, _order, _followers, _keysOf, entries);

    private VisitTable OfPlaces(long[,] go, int entries) => Table(key => key % _problem.Places, go, _problem.End, PlaceEntries * entries);

    /// <remarks>
    /// A table of the cheapest visits first is cut short among cheap ones, and then tells little of how often the lift must move. A table of nothing but
    /// the moves between distant places is small and complete, so beside it the cut does little harm.
    /// </remarks>
    private IEnumerable<VisitTable> Shares(int entries)
    {
        var region = Regions();
        long within = 0, across = long.MaxValue;
        for (var i = 0; i < Go.Length; i++)
        {
            var (a, b) = (i / _problem.Places, i % _problem.Places);
            (within, across) = region[a] == region[b] ? (Math.Max(within, Go[a, b]), across) : (within, Math.Min(across, Go[a, b]));
        }

        if (across == long.MaxValue || across <= within)
        {
            yield break;
        }

        var regions = region.Max() + 1;
        var moves = new long[regions, regions];
        for (var i = 0; i < moves.Length; i++)
        {
            moves[i / regions, i % regions] = i / regions == i % regions ? 0 : across - within;
        }

        yield return Table(key => region[key % _problem.Places], moves, _problem.End < 0 ? -1 : region[_problem.End], PlaceEntries * entries);
        yield return OfPlaces(Beyond(Go, (a, b) => region[a] == region[b] ? 0 : across - within), entries);
    }

    /// <summary>For every place a number of its region: places are of one when a row of changes leads from one to the other that each cost less than half of the dearest.</summary>
    private int[] Regions()
    {
        var dearest = Go.Cast<long>().Max();
        int[] region = [.. Enumerable.Range(0, _problem.Places)];
        for (var i = 0; i < Go.Length; i++)
        {
            var (a, b) = (i / _problem.Places, i % _problem.Places);
            if (region[a] != region[b] && 2 * Math.Max(Go[a, b], Go[b, a]) < dearest)
            {
                var (joined, other) = (region[a], region[b]);
                region = [.. region.Select(one => one == other ? joined : one)];
            }
        }

        var numbers = region.Distinct().ToList();
        return [.. region.Select(one => numbers.IndexOf(one))];
    }

    private static long Nearest(long[,] go)
    {
        var least = long.MaxValue;
        for (var i = 0; i < go.Length; i++)
        {
            var (from, to) = (i / go.GetLength(0), i % go.GetLength(0));
            least = from == to ? least : Math.Min(least, go[from, to]);
        }

        return least;
    }

    /// <summary>What changes of place cost beyond a share of them, and no detour less.</summary>
    private static long[,] Beyond(long[,] go, Func<int, int, long> share)
    {
        var count = go.GetLength(0);
        var beyond = new long[count, count];
        for (var i = 0; i < count * count; i++)
        {
            var (a, b) = (i / count, i % count);
            beyond[a, b] = Math.Max(0, go[a, b] - share(a, b));
        }

        for (var via = 0; via < count; via++)
        {
            for (var i = 0; i < count * count; i++)
            {
                var (a, b) = (i / count, i % count);
                beyond[a, b] = Math.Min(beyond[a, b], beyond[a, via] + beyond[via, b]);
            }
        }

        return beyond;
    }

    private static ulong[][] Followers(StayProblem problem)
    {
        var followers = new ulong[problem.Needs.Length][];
        for (var i = 0; i < followers.Length; i++)
        {
            followers[i] = new ulong[problem.Words];
            for (var later = 0; later < followers.Length; later++)
            {
                if (Bits.Has(problem.Needs[later], i))
                {
                    Bits.Add(followers[i], later);
                }
            }
        }

        return followers;
    }
}
