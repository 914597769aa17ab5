namespace Lastoff.Core.Planning;

/// <summary>What set-ups cost at least until all landmarks are done.</summary>
/// <remarks>
/// The ticks of every set-up are shared out so that each share can be bounded by itself, and the bounds add up: once by what a set-up consists
/// of (tool, place), once by the visits to single keys with what a change of place costs beyond a change of tool. Within a share the classes are
/// put into groups, each with its own table, that count only their own visits.
/// </remarks>
internal sealed class SetUpBound
{
    private const int GroupSize = 4;

    /// <summary>How many times the entries the one table of all places may have: cut short, it gives away most.</summary>
    private const int PlaceEntries = 10;

    private readonly OneWay _problem;
    private readonly int _entries;
    private readonly int[] _order;
    private readonly ulong[][] _followers;
    private readonly int[][] _keys;
    private readonly int[] _present;
    private readonly List<VisitTable[]> _shares = [];

    /// <param name="entries">How many entries a table may have.</param>
    public SetUpBound(OneWay problem, Landmarks landmarks, int[][] keys, int entries)
    {
        _entries = entries;
        _problem = problem;
        _keys = keys;
        _order = Order(landmarks);
        _followers = Followers(landmarks);
        _present = [.. Present().Distinct()];
        int[] ownClass = [.. Enumerable.Range(0, problem.SetUp.GetLength(0))];
        if (problem.SetUpParts is [var tools, var places])
        {
            _shares.Add([.. Groups([.. tools.ClassOf], tools.Change), Full([.. places.ClassOf], places.Change)]);
            var (rest, visits) = Split(tools, places);
            _shares.Add([.. Groups(ownClass, visits), Full([.. places.ClassOf], rest)]);
        }
        else
        {
            _shares.Add([.. Groups(ownClass, problem.SetUp)]);
        }
    }

    public long From(ReadOnlySpan<ulong> left, int key)
    {
        var most = 0L;
        foreach (var share in _shares)
        {
            var sum = 0L;
            foreach (var table in share)
            {
                sum += table.From(left, key);
            }

            most = Math.Max(most, sum);
        }

        return most;
    }

    private VisitTable Full(int[] classOf, long[,] change) =>
        new(classOf, change, ClassOfEnd(classOf), _order, _followers, _keys, PlaceEntries * _entries);

    private int ClassOfEnd(int[] classOf) => _problem.EndKey == OneWay.AnyKey ? -1 : classOf[_problem.EndKey];

    private IEnumerable<VisitTable> Groups(int[] classOf, long[,] change)
    {
        var least = Least(classOf, change);
        int[] members = [.. _order.SelectMany(i => _keys[i]).Select(key => classOf[key]).Distinct().Where(c => least[c] > 0).Order()];
        foreach (var group in members.Chunk(GroupSize))
        {
            yield return Group(classOf, least, group);
        }
    }

    private VisitTable Group(int[] classOf, long[] least, int[] group)
    {
        int[] own = [.. classOf.Select(c => Array.IndexOf(group, c)).Select(at => at < 0 ? group.Length : at)];
        var change = new long[group.Length + 1, group.Length + 1];
        for (var a = 0; a <= group.Length; a++)
        {
            for (var b = 0; b <= group.Length; b++)
            {
                var charged = _problem.EndKey == OneWay.AnyKey ? b : a;
                change[a, b] = a == b || charged == group.Length ? 0 : least[group[charged]];
            }
        }

        return new VisitTable(own, change, ClassOfEnd(own), _order, _followers, _keys, _entries);
    }

    /// <summary>For every class the least that coming to it can cost; on the way back, read backwards, that leaving it can.</summary>
    private long[] Least(int[] classOf, long[,] change)
    {
        int[] classes = [.. _present.Select(key => classOf[key]).Distinct()];
        return [.. Enumerable.Range(0, change.GetLength(0)).Select(c => classes.Where(other => other != c)
            .Select(other => _problem.EndKey == OneWay.AnyKey ? change[other, c] : change[c, other]).DefaultIfEmpty(0).Min())];
    }

    private IEnumerable<int> Present()
    {
        if (_problem.StartKey != OneWay.AnyKey)
        {
            yield return _problem.StartKey;
        }

        if (_problem.EndKey != OneWay.AnyKey)
        {
            yield return _problem.EndKey;
        }

        foreach (var way in _problem.Ways.SelectMany(ways => ways))
        {
            yield return way.Key;
        }
    }

    private (long[,] Beyond, long[,] Visits) Split(SetUpPart tools, SetUpPart places)
    {
        var most = tools.Change.Cast<long>().Max();
        var count = places.Change.GetLength(0);
        var rest = new long[count, count];
        for (var i = 0; i < count * count; i++)
        {
            rest[i / count, i % count] = Math.Max(0, places.Change[i / count, i % count] - most);
        }

        for (var via = 0; via < count; via++)
        {
            for (var i = 0; i < count * count; i++)
            {
                var (a, b) = (i / count, i % count);
                rest[a, b] = Math.Min(rest[a, b], rest[a, via] + rest[via, b]);
            }
        }

        var keys = _problem.SetUp.GetLength(0);
        var visits = new long[keys, keys];
        for (var i = 0; i < keys * keys; i++)
        {
            var (a, b) = (i / keys, i % keys);
            visits[a, b] = _problem.SetUp[a, b] - rest[places.ClassOf[a], places.ClassOf[b]];
        }

        return (rest, visits);
    }

    /// <summary>Whatever must follow a landmark has strictly more landmarks than it.</summary>
    private static int[] Order(Landmarks landmarks)
    {
        var order = new List<int>();
        for (var i = Bits.Next(landmarks.Forced, 0); i >= 0; i = Bits.Next(landmarks.Forced, i + 1))
        {
            order.Add(i);
        }

        return [.. order.OrderByDescending(i => Bits.Count(landmarks.UpTo(i))).ThenBy(i => i)];
    }

    private ulong[][] Followers(Landmarks landmarks)
    {
        var followers = new ulong[_problem.Operations][];
        foreach (var i in _order)
        {
            followers[i] = new ulong[_problem.Words];
        }

        foreach (var later in _order)
        {
            var before = landmarks.UpTo(later);
            for (var i = Bits.Next(before, 0); i >= 0; i = Bits.Next(before, i + 1))
            {
                if (i != later && followers[i] is { } of)
                {
                    Bits.Add(of, later);
                }
            }
        }

        return followers;
    }
}
