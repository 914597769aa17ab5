using System.Numerics;

namespace Lastoff.Core.Planning;

/// <summary>What can be done next in a stay, and what a move leads to.</summary>
internal sealed class StayMoves(StayProblem problem)
{
    private readonly ulong[] _all = new ulong[problem.Words];
    private readonly StayChoices _here = new(problem.Words);
    private readonly StayChoices _there = new(problem.Words);

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
            ticks += Use(done, ref state.Pending, UseOf(move.Tool, state.Place), order);
        }
        else
        {
            ticks += state.Carried == 0 ? Use(done, ref state.Pending, UseOf(move.Tool, state.Place), order) : 0;
            ticks += problem.Go[state.Place, move.To] - problem.Take;
            Place(done, ref state.Pending, move.PlacedThere, order);
            ticks += Use(done, ref state.Pending, UseOf(move.Tool, move.To), order);
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
            foreach (var use in problem.At[place])
            {
                if (use.Tool == StayProblem.Hand)
                {
                    order?.TakeUp(use.Tool, place);
                    moved |= problem.Do(done, use.Work, order);
                }
                else if (!IsPending(pending, use.Number) && problem.IsLastUse(done, use.Work))
                {
                    ticks += problem.Take;
                    moved = true;
                    if (MayCarry(done, use))
                    {
                        pending |= UInt128.One << use.Number;
                        order?.Leave(use);
                    }
                    else
                    {
                        order?.TakeUp(use.Tool, place);
                        problem.Do(done, use.Work, order);
                    }
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
            var use = problem.Uses[(int)UInt128.TrailingZeroCount(rest)];
            order?.ComeBackTo(use);
            problem.Do(done, use.Work, order);
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
    private long Use(Span<ulong> done, ref UInt128 pending, StayUse use, StayOrder? order)
    {
        order?.TakeUp(use.Tool, use.Place);
        problem.Do(done, use.Work, order);
        if (!IsPending(pending, use.Number))
        {
            return problem.Take;
        }

        pending &= ~(UInt128.One << use.Number);
        return 0;
    }

    private StayUse UseOf(int tool, int place) => Array.Find(problem.With[tool], use => use.Place == place)!;

    private bool PlaceWhatCannotCarry(Span<ulong> done, ref UInt128 pending, StayOrder? order)
    {
        var any = false;
        for (var rest = pending; rest != 0; rest &= rest - 1)
        {
            var use = (int)UInt128.TrailingZeroCount(rest);
            if (!MayCarry(done, problem.Uses[use]))
            {
                Place(done, ref pending, UInt128.One << use, order);
                any = true;
            }
        }

        return any;
    }

    /// <summary>Whether the tool has work at another place that is not done yet.</summary>
    private bool MayCarry(ReadOnlySpan<ulong> done, StayUse use)
    {
        foreach (var other in problem.With[use.Tool])
        {
            if (other != use && problem.IsLeft(done, other.Work))
            {
                return true;
            }
        }

        return false;
    }

    private void FindUses(ReadOnlySpan<ulong> done, in StayState state, List<StayMove> moves)
    {
        foreach (var use in problem.At[state.Place])
        {
            if (use.Tool != StayProblem.Hand && !IsPending(state.Pending, use.Number) && problem.IsLeft(done, use.Work))
            {
                Choose(done, state.Pending, use.Work, _here);
                for (var choice = 0; choice < _here.Count; choice++)
                {
                    moves.Add(new StayMove(_here.Placed(choice), use.Tool, -1, 0, false));
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

        _here.Clear();
        done.CopyTo(_all);
        AddPending(_all, state.Pending);
        foreach (var use in problem.At[state.Place])
        {
            for (var word = 0; word < _all.Length; word++)
            {
                for (var rest = use.Work[word] & ~_all[word]; rest != 0; rest &= rest - 1)
                {
                    var i = (word << 6) + BitOperations.TrailingZeroCount(rest);
                    if (!problem.IsAvailable(i, _all))
                    {
                        continue;
                    }

                    for (var behind = Behind(i, done, state.Pending); behind.Next() is var uses && uses != 0;)
                    {
                        if (_here.IsFirst(uses))
                        {
                            moves.Add(new StayMove(uses, StayProblem.Hand, -1, 0, false));
                        }
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
        foreach (var use in problem.At[place])
        {
            if (problem.IsLeft(done, use.Work))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The tool used last here is used first at the next place.</summary>
    private void FindCarries(ReadOnlySpan<ulong> done, in StayState state, List<StayMove> moves)
    {
        if (state.Carried != 0)
        {
            FindArrivals(done, state, 0, state.Pending, state.Carried, moves);
            return;
        }

        foreach (var use in problem.At[state.Place])
        {
            if (use.Tool == StayProblem.Hand || !problem.IsLeft(done, use.Work) || !MayCarry(done, use))
            {
                continue;
            }

            if (IsPending(state.Pending, use.Number))
            {
                done.CopyTo(_all);
                Bits.AddAll(_all, use.Work);
                FindArrivals(_all, state, 0, state.Pending & ~(UInt128.One << use.Number), use.Tool, moves);
                continue;
            }

            Choose(done, state.Pending, use.Work, _here);
            for (var choice = 0; choice < _here.Count; choice++)
            {
                FindArrivals(_here.After(choice), state, _here.Placed(choice), state.Pending & ~_here.Placed(choice), use.Tool, moves);
            }
        }
    }

    private void FindArrivals(ReadOnlySpan<ulong> done, in StayState state, UInt128 placed, UInt128 pending, int tool, List<StayMove> moves)
    {
        foreach (var use in problem.With[tool])
        {
            if (use.Place == state.Place || !problem.IsLeft(done, use.Work))
            {
                continue;
            }

            _there.Clear();
            if (IsPending(pending, use.Number))
            {
                _there.Add(0, done);
            }
            else
            {
                Choose(done, pending, use.Work, _there);
            }

            for (var choice = 0; choice < _there.Count; choice++)
            {
                moves.Add(new StayMove(placed, tool, use.Place, _there.Placed(choice), true));
                moves.Add(new StayMove(placed, tool, use.Place, _there.Placed(choice), false));
            }
        }
    }

    /// <summary>The ways to use a tool now: with none of the pending uses placed before it, or with some that its work waits for. For each what is done after it.</summary>
    private void Choose(ReadOnlySpan<ulong> done, UInt128 pending, ulong[] work, StayChoices found)
    {
        found.Clear();
        Grow(done, 0, found, done, pending, work);
    }

    private void Grow(ReadOnlySpan<ulong> from, UInt128 placed, StayChoices found, ReadOnlySpan<ulong> before, UInt128 pending, ulong[] work)
    {
        if (!found.IsFirst(placed))
        {
            return;
        }

        Span<ulong> done = stackalloc ulong[from.Length];
        from.CopyTo(done);
        problem.Do(done, work);
        if (HasMore(done, before, work))
        {
            found.Add(placed, done);
        }

        var left = pending & ~placed;
        if (left == 0 || !problem.IsLeft(done, work))
        {
            return;
        }

        Span<ulong> all = stackalloc ulong[from.Length];
        Span<ulong> more = stackalloc ulong[from.Length];
        done.CopyTo(all);
        AddPending(all, left);
        for (var word = 0; word < work.Length; word++)
        {
            for (var rest = work[word] & ~all[word]; rest != 0; rest &= rest - 1)
            {
                var i = (word << 6) + BitOperations.TrailingZeroCount(rest);
                if (!problem.IsAvailable(i, all))
                {
                    continue;
                }

                for (var behind = Behind(i, done, left); behind.Next() is var uses && uses != 0;)
                {
                    done.CopyTo(more);
                    AddPending(more, uses);
                    Grow(more, placed | uses, found, before, pending, work);
                }
            }
        }
    }

    private static bool HasMore(ReadOnlySpan<ulong> after, ReadOnlySpan<ulong> before, ulong[] work)
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

    /// <summary>The pending uses whose work a landmark waits for. Of several that would do the same, each by turns: placed, a use can no longer carry its tool.</summary>
    private StayBehind Behind(int landmark, ReadOnlySpan<ulong> done, UInt128 pending)
    {
        Span<ulong> waits = stackalloc ulong[done.Length];
        problem.Needs[landmark].CopyTo(waits);
        Bits.TakeAway(waits, done);
        if (Bits.IsSubset(waits, problem.Sole))
        {
            return new StayBehind(Having(waits, pending), 0);
        }

        Span<ulong> once = stackalloc ulong[done.Length];
        Span<ulong> twice = stackalloc ulong[done.Length];
        for (var rest = pending; rest != 0; rest &= rest - 1)
        {
            var work = WorkOf((int)UInt128.TrailingZeroCount(rest));
            for (var i = 0; i < work.Length; i++)
            {
                twice[i] |= once[i] & work[i];
                once[i] |= work[i];
            }
        }

        Bits.KeepOnly(once, waits);
        Bits.TakeAway(once, twice);
        var needed = Having(once, pending);
        for (var rest = needed; rest != 0; rest &= rest - 1)
        {
            Bits.TakeAway(waits, WorkOf((int)UInt128.TrailingZeroCount(rest)));
        }

        // What else it waits for is asked again once these are placed.
        return new StayBehind(needed, Bits.Next(waits, 0) is >= 0 and var other ? With(other, pending) : 0);
    }

    private UInt128 With(int landmark, UInt128 pending)
    {
        var with = UInt128.Zero;
        for (var rest = pending; rest != 0; rest &= rest - 1)
        {
            var use = (int)UInt128.TrailingZeroCount(rest);
            with |= Bits.Has(WorkOf(use), landmark) ? UInt128.One << use : 0;
        }

        return with;
    }

    /// <summary>The pending uses that have some of this in their work.</summary>
    private UInt128 Having(ReadOnlySpan<ulong> some, UInt128 pending)
    {
        var having = UInt128.Zero;
        for (var rest = pending; rest != 0; rest &= rest - 1)
        {
            var use = (int)UInt128.TrailingZeroCount(rest);
            having |= Bits.Overlap(some, WorkOf(use)) ? UInt128.One << use : 0;
        }

        return having;
    }

    private ulong[] WorkOf(int use) => problem.Uses[use].Work;

    private static bool IsPending(UInt128 pending, int use) => (pending >> use & 1) != 0;
}
