namespace Lastoff.Core.Planning.TwoHands;

/// <summary>The least of all set-ups that two people still pay together: tools in groups, places with the lift, each from its own table.</summary>
/// <remarks>A table of tools charges only for tools of its own group, so the tables add up.</remarks>
internal sealed class HandsChanges
{
    private const int GroupSize = 4;

    private readonly List<(int[] Number, ChangeTable Table, Stances Stances)> _tools = [];
    private readonly (ChangeTable Table, Stances Stances) _places;
    private readonly (ChangeTable Table, Stances Stances) _lift;

    public HandsChanges(Course course, int entries)
    {
        var (toolOf, placeOf) = (ToolOf(course), PlaceOf(course));
        var setUp = course.Problem.SetUp;
        var after = ChangeTable.After(course);
        var last = course.Problem.Holds.Max(hold => hold.Tool);
        // Tools of much use together: those of little use are rarely taken twice.
        var used = Enumerable.Range(1, last)
            .Select(tool => (Tool: tool, Uses: Enumerable.Range(0, course.Size).Count(i => Bits.Has(course.Forced, i) && toolOf[i] == tool)))
            .Where(tool => tool.Uses > 0).OrderByDescending(tool => tool.Uses).Select(tool => tool.Tool).ToList();
        foreach (var group in setUp.Tool == 0 ? [] : used.Chunk(GroupSize))
        {
            var number = new int[last + 1];
            foreach (var (at, tool) in group.Index())
            {
                number[tool] = at + 1;
            }

            var stances = Stances.OfTools(group.Length, [.. toolOf.Select(tool => number[tool])], setUp.Tool);
            _tools.Add((number, new ChangeTable(course, stances, after, entries), stances));
        }

        var places = Stances.OfPlaces(placeOf, setUp);
        _places = (new ChangeTable(course, places, after, entries), places);
        var lift = Stances.OfLift(placeOf, setUp.Lift);
        _lift = (new ChangeTable(course, lift, after, entries), lift);
    }

    /// <summary>The moves of the lift alone; <see cref="Ticks"/> has them too.</summary>
    public long LiftTicks(bool liftIsUp, ReadOnlySpan<ulong> left) => _lift.Table.From(_lift.Stances.Of(0, 0, liftIsUp), left);

    public long Ticks(Hold a, Hold b, bool liftIsUp, ReadOnlySpan<ulong> left)
    {
        var ticks = Math.Max(LiftTicks(liftIsUp, left), _places.Table.From(_places.Stances.Of((int)a.At, (int)b.At, liftIsUp), left));
        foreach (var (number, table, stances) in _tools)
        {
            ticks += table.From(stances.Of(number[a.Tool], number[b.Tool], false), left);
        }

        return ticks;
    }

    /// <summary>For every operation the tool of all its ways, or none.</summary>
    public static int[] ToolOf(Course course) => [.. course.Ways.Select(ways => Common(ways, hold => hold.Tool) ?? Hold.BareHand)];

    /// <summary>For every operation the place of all its ways, or -1.</summary>
    public static int[] PlaceOf(Course course) => [.. course.Ways.Select(ways => Common(ways, hold => (int)hold.At) ?? -1)];

    private static int? Common(CourseWay[] ways, Func<Hold, int> of)
    {
        List<int?> all = [.. ways.Select(way => way.Hold is { } hold ? of(hold) : default(int?)).Distinct()];
        return all.Count == 1 ? all[0] : null;
    }
}
