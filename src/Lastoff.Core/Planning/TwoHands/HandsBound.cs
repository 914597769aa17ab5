using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>How early a course can end at best, from any state of it: quick, for the inner loop.</summary>
internal sealed class HandsBound
{
    private const int TableEntries = 1000;

    private readonly Course _course;
    private readonly long[] _work;
    private readonly long[] _tail;
    private readonly long[] _after;
    private readonly int[] _tool;
    private readonly int[] _place;
    private readonly long[] _toolLoad;
    private readonly long[] _placeLoad = new long[Enum.GetValues<Position>().Length];
    private readonly ulong[] _left;
    private readonly HandsChanges _changes;

    public HandsBound(Course course)
    {
        _course = course;
        _work = new long[course.Size];
        _tail = new long[course.Size];
        _after = new long[course.Size];
        _tool = HandsChanges.ToolOf(course);
        _toolLoad = new long[1 + course.Problem.Holds.Max(hold => hold.Tool)];
        _place = HandsChanges.PlaceOf(course);
        _left = new ulong[course.Words];
        for (var i = Bits.Next(course.Members, 0); i >= 0; i = Bits.Next(course.Members, i + 1))
        {
            _work[i] = course.LeastWork(i);
        }

        FillTails();
        _changes = new HandsChanges(course, TableEntries);
    }

    /// <summary>The bound; it notes the load of the state besides.</summary>
    public long From(HandsState state)
    {
        var (a, b) = (Math.Max(state.A.Free, state.Last), Math.Max(state.B.Free, state.Last));
        var first = Math.Min(a, b);
        var end = Math.Max(state.End, Math.Max(After(state.A), After(state.B)));
        var (work, under, proofs) = (0L, 0L, 0L);
        Array.Clear(_toolLoad);
        Array.Clear(_placeLoad);
        for (var word = 0; word < state.Set.Length; word++)
        {
            _left[word] = _course.Left(word, state.Set);
            for (var left = _left[word]; left != 0; left &= left - 1)
            {
                var i = (word << 6) + System.Numerics.BitOperations.TrailingZeroCount(left);
                work += _work[i];
                end = Math.Max(end, first + _tail[i]);
                _toolLoad[_tool[i]] += _work[i];
                if (_place[i] == (int)Position.Below)
                {
                    under += _work[i];
                }
                else if (_place[i] >= 0)
                {
                    _placeLoad[_place[i]] += _work[i];
                }

                proofs += i >= _course.Problem.Operations ? _work[i] : 0;
            }
        }

        work += _changes.Ticks(state.A.Hold, state.B.Hold, state.LiftIsUp, _left);
        // Beside work under the machine, and while the lift moves, the other can at most take a reading.
        var alone = under + _changes.LiftTicks(state.LiftIsUp, _left);
        var idle = Math.Max(0, alone - proofs - (Math.Max(a, b) - first) * (Reads(state.A) || Reads(state.B) ? 1 : 0));
        for (var tool = Hold.BareHand + 1; tool < _toolLoad.Length; tool++)
        {
            end = Math.Max(end, first + _toolLoad[tool]);
        }

        foreach (var load in _placeLoad)
        {
            end = Math.Max(end, first + load + alone);
        }

        state.Load = a + b + work + idle;
        return Math.Max(end, (state.Load + 1) / 2);
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
                // Two waits between the same two run side by side.
                var wait = _course.Lags.Where(lag => lag.From == j && lag.To == i).Select(lag => lag.Ticks).DefaultIfEmpty(0).Max();
                _after[j] = Math.Max(_after[j], wait + _tail[i]);
            }
        }
    }
}
