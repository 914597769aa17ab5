using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>How long a course takes at least, if all that counts is which pieces of it two people can do at the same time.</summary>
/// <remarks>
/// The pieces are the work of every operation that is sure to be done, one taking of every tool and one walk to every place it needs, and what
/// further changes cost at least; the lift moves alone. Two pieces go together unless they collide or one comes before the other. The time saved against one person is at most
/// the most time that can be spent in such pairs: a fractional matching, half a maximal flow. It holds within it the half of all work, the longest
/// chain, and the load of every tool and of places that collide with each other.
/// </remarks>
internal static class PairingBound
{
    /// <param name="entries">How large each table of changes may grow.</param>
    public static long Of(Course course, int entries)
    {
        var start = HandsState.First(course);
        var changes = new HandsChanges(course, entries);
        var lift = changes.LiftTicks(start.LiftIsUp, course.Forced);
        var pieces = Pieces(course);
        // Changes beyond the first of each kind: whose they are is not known, so they go with anything.
        var more = changes.Ticks(start.A.Hold, start.B.Hold, start.LiftIsUp, course.Forced) - lift - pieces.Where(piece => piece.IsSetUp).Sum(piece => piece.Ticks);
        pieces.Add(new Piece(Math.Max(0, more), -1, []));
        pieces.RemoveAll(piece => piece.Ticks == 0);
        var total = pieces.Sum(piece => piece.Ticks);
        var flow = new MaxFlow(2 * pieces.Count + 2);
        var (source, sink) = (2 * pieces.Count, 2 * pieces.Count + 1);
        for (var a = 0; a < pieces.Count; a++)
        {
            flow.Add(source, 2 * a, pieces[a].Ticks);
            flow.Add(2 * a + 1, sink, pieces[a].Ticks);
            for (var b = 0; b < pieces.Count; b++)
            {
                if (GoTogether(course, pieces[a], pieces[b]))
                {
                    flow.Add(2 * a, 2 * b + 1, Math.Min(pieces[a].Ticks, pieces[b].Ticks));
                }
            }
        }

        return total + lift - flow.From(source, sink) / 2;
    }

    private static List<Piece> Pieces(Course course)
    {
        var problem = course.Problem;
        var start = problem.Holds[problem.Trip.StartKey];
        var pieces = new List<Piece>();
        var (tools, places) = (new SortedSet<int>(), new SortedSet<int>());
        var (toolOf, placeOf) = (HandsChanges.ToolOf(course), HandsChanges.PlaceOf(course));
        for (var i = Bits.Next(course.Forced, 0); i >= 0; i = Bits.Next(course.Forced, i + 1))
        {
            pieces.Add(new Piece(course.LeastWork(i), i, [.. course.Ways[i].Select(way => way.Hold).Distinct()]));
            tools.Add(toolOf[i]);
            places.Add(placeOf[i]);
        }

        pieces.AddRange(tools.Where(tool => tool != Hold.BareHand).Select(tool => new Piece(problem.SetUp.Tool, -1, []) { Tool = tool }));
        pieces.AddRange(places.Where(place => place >= 0 && place != (int)start.At).Select(place => new Piece(problem.SetUp.Place, -1, []) { Place = (Position)place }));
        return pieces;
    }

    private static bool GoTogether(Course course, Piece a, Piece b)
    {
        if (a == b || a.IsAnything || b.IsAnything)
        {
            return a.IsAnything || b.IsAnything;
        }

        if (a.Operation >= 0 && b.Operation >= 0)
        {
            return !Bits.Has(course.Before[a.Operation], b.Operation)
                && !Bits.Has(course.Before[b.Operation], a.Operation)
                && Array.Exists(a.Holds, mine => Array.Exists(b.Holds, theirs =>
                    mine is not { } x || theirs is not { } y || !HandsMoves.Collide(course.Problem, x, y)));
        }

        if (a.Operation < 0 && b.Operation < 0)
        {
            return a.Place is not { } x || b.Place is not { } y || !course.Problem.Collisions.Between(x, y);
        }

        var (work, setUp) = a.Operation >= 0 ? (a, b) : (b, a);
        return Array.Exists(work.Holds, hold => hold is not { } own
            || (setUp.Place is { } place ? !course.Problem.Collisions.Between(place, own.At) : setUp.Tool != own.Tool));
    }

    /// <param name="Operation">Or -1 for a set-up.</param>
    /// <param name="Holds">One for every way; null for a reading, which collides with nothing.</param>
    private sealed record Piece(long Ticks, int Operation, Hold?[] Holds)
    {
        public int Tool { get; init; }
        public Position? Place { get; init; }
        public bool IsSetUp => Operation < 0;
        public bool IsAnything => IsSetUp && Tool == Hold.BareHand && Place is null;
    }
}
