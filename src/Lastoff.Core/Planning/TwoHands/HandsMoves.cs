using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>What can be begun next, and when.</summary>
/// <remarks>
/// Steps are placed in the order in which they begin, each as early as that order allows. Some best plan is among these: in any plan,
/// moving the steps forward one after the other, in the order they begin, makes nothing later.
/// </remarks>
internal sealed class HandsMoves(Course course)
{
    private readonly Dictionary<OperationSet, OneWayStep[]> _known = [];

    /// <summary>Every operation with every way of it that this set lets begin, sooner or later.</summary>
    public OneWayStep[] From(ulong[] set)
    {
        if (_known.TryGetValue(OperationSet.Over(set), out var moves))
        {
            return moves;
        }

        var found = new List<OneWayStep>();
        for (var i = Bits.Next(course.Members, 0); i >= 0; i = Bits.Next(course.Members, i + 1))
        {
            if (Bits.Has(set, i) == course.IsOut || IsBarred(i, set))
            {
                continue;
            }

            var at = set;
            if (!course.IsOut)
            {
                at = Without(set, i);
                if (!IsSupported(at))
                {
                    continue;
                }
            }

            for (var w = 0; w < course.Ways[i].Length; w++)
            {
                if (Course.IsOpen(course.Ways[i][w], at))
                {
                    found.Add(new OneWayStep(i, w));
                }
            }
        }

        moves = [.. found];
        _known.Add(OperationSet.Over(set), moves);
        return moves;
    }

    /// <summary>The state after one of the two has begun a step at the earliest.</summary>
    public HandsState Begin(HandsState from, OneWayStep move, bool byA)
    {
        var (hand, other) = byA ? (from.A, from.B) : (from.B, from.A);
        var way = course.Ways[move.Operation][move.Way];
        var setUp = way.Hold is { } hold ? SetUp(from, hand.Hold, hold) : 0;
        var movesLift = way.Hold is { } there && there.IsUnderTheLift != from.LiftIsUp;
        var start = Math.Max(from.Last, hand.Free);
        if (other.Free > start && (movesLift || Collides(way, other) || Awaits(from.Set, move, way, other)))
        {
            start = other.Free;
        }

        for (var i = 0; i < course.Lags.Length; i++)
        {
            if (course.Lags[i].To == move.Operation)
            {
                start = Math.Max(start, from.Over[i] - setUp);
            }
        }

        var step = new HandsStep(move.Operation, way.Index, hand.Id, start, setUp, course.Work(move.Operation, way, from.Set));
        hand = new Hand(hand.Id, way.Hold ?? hand.Hold, step.End, move.Operation, move.Way);
        if (way.Hold is { Tool: not Hold.BareHand } taken && taken.Tool == other.Hold.Tool)
        {
            other = other with { Hold = other.Hold with { Tool = Hold.BareHand } };
        }

        var isFirst = hand.CompareTo(other) <= 0;
        return new HandsState
        {
            Set = After(from.Set, move.Operation),
            // Until the lift has come to rest nobody begins anything.
            Last = movesLift ? start + setUp : start,
            A = isFirst ? hand : other,
            B = isFirst ? other : hand,
            LiftIsUp = way.Hold?.IsUnderTheLift ?? from.LiftIsUp,
            Over = Over(from, step),
            Parent = from,
            Step = step,
            Steps = from.Steps + 1,
        };
    }

    private long SetUp(HandsState state, Hold from, Hold to)
    {
        var minutes = course.Problem.SetUp;
        return (to.Tool != from.Tool && to.Tool != Hold.BareHand ? minutes.Tool : 0)
            + (to.At != from.At ? minutes.Place : 0)
            + (to.IsUnderTheLift != state.LiftIsUp ? minutes.Lift : 0);
    }

    private bool Collides(CourseWay way, Hand other) =>
        way.Hold is { } mine && course.Ways[other.Operation][other.Way].Hold is { } theirs && Collide(course.Problem, mine, theirs);

    public static bool Collide(HandsProblem problem, Hold a, Hold b) =>
        a.Tool == b.Tool && a.Tool != Hold.BareHand || problem.Collisions.Between(a.At, b.At);

    /// <summary>Whether the step may begin only when the other's step, still running, has ended.</summary>
    private bool Awaits(ulong[] set, OneWayStep move, CourseWay way, Hand other)
    {
        if (!course.IsOut)
        {
            return course.ThenOf[move.Operation] == other.Operation
                || !Course.IsOpen(course.Ways[other.Operation][other.Way], Without(set, move.Operation));
        }

        return course.FirstOf[move.Operation] == other.Operation || !Course.IsOpen(way, Without(set, other.Operation));
    }

    /// <summary>Out: the first of a pair no longer once the second is begun, so not the second before a first that is sure to be done. Back: not the first before the second.</summary>
    private bool IsBarred(int operation, ulong[] set)
    {
        var (first, then) = (course.FirstOf[operation], course.ThenOf[operation]);
        return then >= 0 && Bits.Has(set, then) || course.IsOut && first >= 0 && Bits.Has(course.Forced, first) && !Bits.Has(set, first);
    }

    /// <summary>Whether all of the set could have been undone without anything else, so that it can all be reversed.</summary>
    private bool IsSupported(ulong[] set)
    {
        var done = new ulong[course.Words];
        var size = Bits.Count(set);
        for (var before = -1; before != Bits.Count(done);)
        {
            before = Bits.Count(done);
            for (var i = Bits.Next(set, 0); i >= 0; i = Bits.Next(set, i + 1))
            {
                var awaitsFirst = course.FirstOf[i] >= 0 && Bits.Has(set, course.FirstOf[i]) && !Bits.Has(done, course.FirstOf[i]);
                if (!Bits.Has(done, i) && !awaitsFirst && Array.Exists(course.Ways[i], way => Course.IsOpen(way, done)))
                {
                    Bits.Add(done, i);
                }
            }
        }

        return Bits.Count(done) == size;
    }

    private ulong[] After(ulong[] set, int operation)
    {
        if (!course.IsOut)
        {
            return Without(set, operation);
        }

        var more = (ulong[])set.Clone();
        Bits.Add(more, operation);
        return more;
    }

    private long[] Over(HandsState from, HandsStep step)
    {
        var over = from.Over;
        for (var i = 0; i < over.Length; i++)
        {
            if (course.Lags[i].From == step.Operation)
            {
                over = ReferenceEquals(over, from.Over) ? (long[])over.Clone() : over;
                over[i] = step.End + course.Lags[i].Ticks;
            }
        }

        return over;
    }

    private static ulong[] Without(ulong[] set, int operation)
    {
        var less = (ulong[])set.Clone();
        less[operation >> 6] &= ~(1UL << operation);
        return less;
    }
}
