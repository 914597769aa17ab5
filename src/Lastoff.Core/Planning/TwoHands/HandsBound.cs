using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>How early a course can end at best, from any state of it: quick, for the inner loop.</summary>
internal sealed class HandsBound
{
    private readonly Course _course;
    private readonly long[] _work;
    private readonly long[] _tail;
    private readonly long[] _after;
    private readonly int[] _tool;
    private readonly int[] _place;
    private readonly long[] _toolLoad;
    private readonly bool[] _placeLeft = new bool[Enum.GetValues<Position>().Length];

    public HandsBound(Course course)
    {
        _course = course;
        _work = new long[course.Size];
        _tail = new long[course.Size];
        _after = new long[course.Size];
        _tool = new int[course.Size];
        _place = new int[course.Size];
        _toolLoad = new long[1 + course.Problem.Holds.Max(hold => hold.Tool)];
        for (var i = Bits.Next(course.Members, 0); i >= 0; i = Bits.Next(course.Members, i + 1))
        {
            _work[i] = course.LeastWork(i);
            _tool[i] = Common(course.Ways[i], hold => hold.Tool);
            _place[i] = Common(course.Ways[i], hold => (int)hold.At);
        }

        FillTails();
    }

    public long From(HandsState state)
    {
        var (a, b) = (Math.Max(state.A.Free, state.Last), Math.Max(state.B.Free, state.Last));
        var first = Math.Min(a, b);
        var end = Math.Max(state.End, Math.Max(After(state.A), After(state.B)));
        var (work, alone, proofs, under, beside) = (0L, 0L, 0L, false, false);
        Array.Clear(_toolLoad);
        Array.Clear(_placeLeft);
        for (var word = 0; word < state.Set.Length; word++)
        {
            for (var left = _course.Left(word, state.Set); left != 0; left &= left - 1)
            {
                var i = (word << 6) + System.Numerics.BitOperations.TrailingZeroCount(left);
                work += _work[i];
                end = Math.Max(end, first + _tail[i]);
                if (_tool[i] > Hold.BareHand)
                {
                    // One more, so that a tool counts as wanted also for work of no ticks.
                    _toolLoad[_tool[i]] += _work[i] + 1;
                }

                if (_place[i] >= 0)
                {
                    _placeLeft[_place[i]] = true;
                    var isUnder = _place[i] == (int)Position.Below;
                    under |= isUnder;
                    beside |= !isUnder;
                    alone += isUnder ? _work[i] : 0;
                }

                proofs += i >= _course.Problem.Operations ? _work[i] : 0;
            }
        }

        var setUp = _course.Problem.SetUp;
        for (var tool = 1; tool < _toolLoad.Length; tool++)
        {
            if (_toolLoad[tool] > 0 && state.A.Hold.Tool != tool && state.B.Hold.Tool != tool)
            {
                work += setUp.Tool;
            }
        }

        for (var place = 0; place < _placeLeft.Length; place++)
        {
            if (_placeLeft[place] && (int)state.A.Hold.At != place && (int)state.B.Hold.At != place)
            {
                work += setUp.Place;
            }
        }

        if (state.LiftIsUp ? beside : under)
        {
            work += setUp.Lift;
            alone += setUp.Lift;
        }

        // Beside work under the machine, and while the lift moves, the other can at most take a reading.
        var idle = Math.Max(0, alone - proofs - (Math.Max(a, b) - first) * (Reads(state.A) || Reads(state.B) ? 1 : 0));
        return Math.Max(end, (a + b + work + idle + 1) / 2);
    }

    private bool Reads(Hand hand) => hand.Operation >= _course.Problem.Operations;

    private long After(Hand hand) => hand.Operation < 0 ? 0 : hand.Free + _after[hand.Operation];

    /// <summary>For every member the longest chain of what must follow it, with and without itself.</summary>
    private void FillTails()
    {
        var members = new List<int>();
        for (var i = Bits.Next(_course.Members, 0); i >= 0; i = Bits.Next(_course.Members, i + 1))
        {
            members.Add(i);
        }

        // What has more before it comes later, so it is settled first.
        foreach (var i in members.OrderByDescending(i => Bits.Count(_course.Before[i])))
        {
            _tail[i] = _work[i] + _after[i];
            if (!Bits.Has(_course.Forced, i))
            {
                continue;
            }

            for (var j = Bits.Next(_course.Before[i], 0); j >= 0; j = Bits.Next(_course.Before[i], j + 1))
            {
                var wait = _course.Lags.Where(lag => lag.From == j && lag.To == i).Sum(lag => lag.Ticks);
                _after[j] = Math.Max(_after[j], wait + _tail[i]);
            }
        }
    }

    /// <summary>What all ways of an operation have in common, or -1.</summary>
    private static int Common(CourseWay[] ways, Func<Hold, int> of)
    {
        var common = ways[0].Hold is { } hold ? of(hold) : -1;
        return Array.TrueForAll(ways, way => way.Hold is { } other && of(other) == common) ? common : -1;
    }
}
