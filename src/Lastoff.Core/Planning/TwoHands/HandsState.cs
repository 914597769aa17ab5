namespace Lastoff.Core.Planning.TwoHands;

/// <summary>How far two people have come in one direction: what is begun, who stands where until when.</summary>
internal sealed class HandsState
{
    public required ulong[] Set { get; init; }
    /// <summary>The start of the latest step; no later step begins before it.</summary>
    public required long Last { get; init; }
    /// <summary>The two people in a fixed order, as they are alike.</summary>
    public required Hand A { get; init; }
    public required Hand B { get; init; }
    public required bool LiftIsUp { get; init; }
    /// <summary>For every wait of the course, when it is over; 0 while it has not begun.</summary>
    public required long[] Over { get; init; }
    public HandsState? Parent { get; init; }
    public HandsStep Step { get; init; }
    public int Steps { get; init; }

    /// <summary>No end from here is earlier.</summary>
    public long Bound { get; set; }
    /// <summary>Ticks of both, until now and at least from now on.</summary>
    public long Load { get; set; }
    public bool IsOutdone { get; set; }

    public long End => Math.Max(A.Free, B.Free);

    public static HandsState First(Course course)
    {
        var hold = course.Problem.Holds[course.Problem.Trip.StartKey];
        return new HandsState
        {
            Set = course.Start,
            Last = 0,
            A = new Hand(0, hold, 0, -1, 0),
            B = new Hand(1, hold, 0, -1, 0),
            LiftIsUp = hold.IsUnderTheLift,
            Over = new long[course.Lags.Length],
        };
    }

    public IReadOnlyList<HandsStep> History()
    {
        var steps = new HandsStep[Steps];
        for (var state = this; state.Parent is not null; state = state.Parent)
        {
            steps[state.Steps - 1] = state.Step;
        }

        return steps;
    }

    /// <summary>Whether whatever the other can still do can be done from here as soon; both have the same set, holds and lift.</summary>
    public bool Outdoes(HandsState other)
    {
        if (Last > other.Last || !Outdoes(A, other.A, other.Last) || !Outdoes(B, other.B, other.Last))
        {
            return false;
        }

        for (var i = 0; i < Over.Length; i++)
        {
            if (Over[i] > Math.Max(other.Over[i], other.Last))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Of the same set, holds and lift: what else differs is only time.</summary>
    public bool IsAlike(HandsState other) =>
        A.Hold == other.A.Hold && B.Hold == other.B.Hold && LiftIsUp == other.LiftIsUp && Set.AsSpan().SequenceEqual(other.Set);

    public ulong Likeness()
    {
        var hands = (ulong)(((A.Hold.Tool << 4 | (int)A.Hold.At) << 16) + (B.Hold.Tool << 4 | (int)B.Hold.At)) * 2 + (LiftIsUp ? 1UL : 0);
        return (Bits.Hash(Set) ^ hands) * 0x9E3779B97F4A7C15UL;
    }

    /// <summary>A step that still runs matters by what it is, since others may await its end.</summary>
    private static bool Outdoes(Hand mine, Hand other, long last) =>
        mine.Free <= last || mine.Free <= other.Free && mine.Operation == other.Operation && mine.Way == other.Way;
}

/// <param name="Id">0 or 1.</param>
/// <param name="Free">When the latest step ends.</param>
/// <param name="Operation">The latest step, or -1.</param>
internal readonly record struct Hand(int Id, Hold Hold, long Free, int Operation, int Way) : IComparable<Hand>
{
    public int CompareTo(Hand other) =>
        (Hold.Tool, Hold.At, Free, Operation, Way).CompareTo((other.Hold.Tool, other.Hold.At, other.Free, other.Operation, other.Way));
}
