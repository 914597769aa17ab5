using System.Numerics;

namespace Lastoff.Core.Planning;

/// <summary>What can be done next in a stay, and what a move leads to.</summary>
internal sealed class StayMoves(StayProblem problem)
{
    private readonly ulong[] _after = new ulong[problem.Words];
    private readonly HashSet<UInt128> _tried = [];

    /// <summary>All moves from a state that some best way may go on with.</summary>
    public void Find(ReadOnlySpan<ulong> done, in StayState state, List<StayMove> moves)
    {
        moves.Clear();
        if (state.Carried == 0)
        {
            FindUses(done, state, moves);
            FindPlacings(done, state, moves);
            FindWalks(done, state, moves);
        }

        FindCarries(done, state, moves);
    }

    /// <summary>Makes a move; returns its ticks.</summary>
    public long Make(Span<ulong> done, ref StayState state, in StayMove move, StayOrder? order = null)
    {
        Place(done, ref state.Pending, move.Placed, order);
        var ticks = 0L;
        if (move.Tool == StayProblem.Hand)
        {
            ticks += move.To < 0 ? 0 : problem.Go[state.Place, move.To];
            state.Place = move.To < 0 ? state.Place : move.To;
        }
        else if (move.To < 0)
        {
            ticks += Use(done, ref state.Pending, move.Tool, state.Place, order);
        }
        else
        {
            ticks += state.Carried == 0 ? Use(done, ref state.Pending, move.Tool, state.Place, order) : 0;
            ticks += problem.Go[state.Place, move.To] - problem.Take;
            Place(done, ref state.Pending, move.PlacedThere, order);
            ticks += Use(done, ref state.Pending, move.Tool, move.To, order);
            state.Place = move.To;
        }

        state.Carried = move.CarriesOn ? move.Tool : 0;
        return move.CarriesOn ? ticks : ticks + Close(done, ref state.Pending, state.Place, order);
    }

    /// <summary>Bare-handed work and last uses at a place, at once. A last use that could yet carry its tool stays pending.</summary>
    public long Close(Span<ulong> done, ref UInt128 pending, int place, StayOrder? order = null)
    {
        var ticks = 0L;
        for (var moved = true; moved;)
        {
            moved = false;
            if (problem.Work[StayProblem.Hand, place] is { } byHand && problem.IsLeft(done, byHand))
            {
                order?.TakeUp(StayProblem.Hand, place);
                moved = problem.Do(done, byHand, order);
            }

            for (var tool = 1; tool < problem.Tools; tool++)
            {
                if (problem.Work[tool, place] is not { } work || IsPending(pending, problem.UseOf[tool, place]) || !problem.IsLastUse(done, work, _after))
                {
                    continue;
                }

                ticks += problem.Take;
                moved = true;
                if (MayCarry(done, tool, place))
                {
                    pending |= UInt128.One << problem.UseOf[tool, place];
                    order?.Leave(problem.UseOf[tool, place], tool, place);
                }
                else
                {
                    order?.TakeUp(tool, place);
                    problem.Do(done, work, order);
                }
            }

            moved |= PlaceWhatCannotCarry(done, ref pending, order);
        }

        return ticks;
    }

    /// <summary>Places pending uses where they were left.</summary>
    public void Place(Span<ulong> done, ref UInt128 pending, UInt128 uses, StayOrder? order)
    {
        for (var rest = uses; rest != 0; rest &= rest - 1)
        {
            var use = (int)UInt128.TrailingZeroCount(rest);
            var work = WorkOf(use);
            order?.Settle(use, Members(done, work));
            Bits.AddAll(done, work);
        }

        pending &= ~uses;
    }

    public void AddPending(Span<ulong> done, UInt128 pending)
    {
        for (var rest = pending; rest != 0; rest &= rest - 1)
        {
            Bits.AddAll(done, WorkOf((int)UInt128.TrailingZeroCount(rest)));
        }
    }

    /// <summary>One use of a tool, paid for now unless it was before.</summary>
    private long Use(Span<ulong> done, ref UInt128 pending, int tool, int place, StayOrder? order)
    {
        var use = problem.UseOf[tool, place];
        order?.TakeUp(tool, place);
        problem.Do(done, problem.Work[tool, place]!, order);
        if (!IsPending(pending, use))
        {
            return problem.Take;
        }

        pending &= ~(UInt128.One << use);
        return 0;
    }

    private bool PlaceWhatCannotCarry(Span<ulong> done, ref UInt128 pending, StayOrder? order)
    {
        var any = false;
        for (var rest = pending; rest != 0; rest &= rest - 1)
        {
            var use = (int)UInt128.TrailingZeroCount(rest);
            if (!MayCarry(done, problem.Uses[use].Tool, problem.Uses[use].Place))
            {
                Place(done, ref pending, UInt128.One << use, order);
                any = true;
            }
        }

        return any;
    }

    /// <summary>Whether the tool has work at another place that is not done yet.</summary>
    private bool MayCarry(ReadOnlySpan<ulong> done, int tool, int place)
    {
        for (var other = 0; other < problem.Places; other++)
        {
            if (other != place && problem.Work[tool, other] is { } work && problem.IsLeft(done, work))
            {
                return true;
            }
        }

        return false;
    }

    private void FindUses(ReadOnlySpan<ulong> done, in StayState state, List<StayMove> moves)
    {
        for (var tool = 1; tool < problem.Tools; tool++)
        {
            if (problem.Work[tool, state.Place] is { } work && !IsPending(state.Pending, problem.UseOf[tool, state.Place]) && problem.IsLeft(done, work))
            {
                foreach (var (placed, _) in Choices(done, state.Pending, work))
                {
                    moves.Add(new StayMove(placed, tool, -1, 0, false));
                }
            }
        }
    }

    /// <summary>Pending uses that work at this place waits for.</summary>
    private void FindPlacings(ReadOnlySpan<ulong> done, in StayState state, List<StayMove> moves)
    {
        if (state.Pending == 0)
        {
            return;
        }

        _tried.Clear();
        var all = done.ToArray();
        AddPending(all, state.Pending);
        for (var tool = 0; tool < problem.Tools; tool++)
        {
            if (problem.Work[tool, state.Place] is { } work)
            {
                foreach (var i in Members(all, work))
                {
                    if (problem.IsAvailable(i, all) && Behind(i, done, state.Pending) is var uses && uses != 0 && _tried.Add(uses))
                    {
                        moves.Add(new StayMove(uses, StayProblem.Hand, -1, 0, false));
                    }
                }
            }
        }
    }

    private void FindWalks(ReadOnlySpan<ulong> done, in StayState state, List<StayMove> moves)
    {
        for (var to = 0; to < problem.Places; to++)
        {
            if (to != state.Place && (to == problem.End || HasWorkLeft(done, to)))
            {
                moves.Add(new StayMove(0, StayProblem.Hand, to, 0, false));
            }
        }
    }

    private bool HasWorkLeft(ReadOnlySpan<ulong> done, int place)
    {
        for (var tool = 0; tool < problem.Tools; tool++)
        {
            if (problem.Work[tool, place] is { } work && problem.IsLeft(done, work))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The tool used last here is used first at the next place.</summary>
    private void FindCarries(ReadOnlySpan<ulong> done, in StayState state, List<StayMove> moves)
    {
        for (var tool = 1; tool < problem.Tools; tool++)
        {
            if (state.Carried == tool)
            {
                FindArrivals(done, state, 0, state.Pending, tool, moves);
            }
            else if (state.Carried == 0 && problem.Work[tool, state.Place] is { } work && problem.IsLeft(done, work) && MayCarry(done, tool, state.Place))
            {
                var own = UInt128.One << problem.UseOf[tool, state.Place];
                if ((state.Pending & own) != 0)
                {
                    var after = done.ToArray();
                    Bits.AddAll(after, work);
                    FindArrivals(after, state, 0, state.Pending & ~own, tool, moves);
                    continue;
                }

                foreach (var (placed, after) in Choices(done, state.Pending, work))
                {
                    FindArrivals(after, state, placed, state.Pending & ~placed, tool, moves);
                }
            }
        }
    }

    private void FindArrivals(ReadOnlySpan<ulong> done, in StayState state, UInt128 placed, UInt128 pending, int tool, List<StayMove> moves)
    {
        for (var to = 0; to < problem.Places; to++)
        {
            if (to == state.Place || problem.Work[tool, to] is not { } work || !problem.IsLeft(done, work))
            {
                continue;
            }

            if (IsPending(pending, problem.UseOf[tool, to]))
            {
                Both(0);
                continue;
            }

            foreach (var (placedThere, _) in Choices(done, pending, work))
            {
                Both(placedThere);
            }

            void Both(UInt128 placedThere)
            {
                moves.Add(new StayMove(placed, tool, to, placedThere, true));
                moves.Add(new StayMove(placed, tool, to, placedThere, false));
            }
        }
    }

    /// <summary>The ways to use a tool now: with none of the pending uses placed before it, or with some that its work waits for. For each what is done after it.</summary>
    private List<(UInt128 Placed, ulong[] After)> Choices(ReadOnlySpan<ulong> done, UInt128 pending, ulong[] work)
    {
        var found = new List<(UInt128, ulong[])>();
        Grow(done.ToArray(), 0, found, [], done.ToArray(), pending, work);
        return found;
    }

    private void Grow(ulong[] done, UInt128 placed, List<(UInt128, ulong[])> found, HashSet<UInt128> tried, ulong[] before, UInt128 pending, ulong[] work)
    {
        if (!tried.Add(placed))
        {
            return;
        }

        problem.Do(done, work);
        if (HasMore(done, before, work))
        {
            found.Add((placed, done));
        }

        if ((pending & ~placed) == 0)
        {
            return;
        }

        var all = (ulong[])done.Clone();
        AddPending(all, pending & ~placed);
        foreach (var i in Members(all, work))
        {
            if (problem.IsAvailable(i, all) && Behind(i, done, pending & ~placed) is var uses && uses != 0)
            {
                var more = (ulong[])done.Clone();
                AddPending(more, uses);
                Grow(more, placed | uses, found, tried, before, pending, work);
            }
        }
    }

    private static bool HasMore(ulong[] after, ulong[] before, ulong[] work)
    {
        for (var i = 0; i < work.Length; i++)
        {
            if ((after[i] & ~before[i] & work[i]) != 0)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The pending uses whose work a landmark needs.</summary>
    private UInt128 Behind(int landmark, ReadOnlySpan<ulong> done, UInt128 pending)
    {
        var behind = UInt128.Zero;
        for (var rest = pending; rest != 0; rest &= rest - 1)
        {
            var use = (int)UInt128.TrailingZeroCount(rest);
            var work = WorkOf(use);
            for (var i = 0; i < work.Length; i++)
            {
                if ((problem.Needs[landmark][i] & work[i] & ~done[i]) != 0)
                {
                    behind |= UInt128.One << use;
                    break;
                }
            }
        }

        return behind;
    }

    private ulong[] WorkOf(int use) => problem.Work[problem.Uses[use].Tool, problem.Uses[use].Place]!;

    private static bool IsPending(UInt128 pending, int use) => (pending >> use & 1) != 0;

    /// <summary>The members of some work that are not in a set.</summary>
    private static List<int> Members(ReadOnlySpan<ulong> done, ulong[] work)
    {
        var members = new List<int>();
        for (var word = 0; word < work.Length; word++)
        {
            for (var rest = work[word] & ~done[word]; rest != 0; rest &= rest - 1)
            {
                members.Add((word << 6) + BitOperations.TrailingZeroCount(rest));
            }
        }

        return members;
    }
}
