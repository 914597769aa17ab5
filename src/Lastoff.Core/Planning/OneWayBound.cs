namespace Lastoff.Core.Planning;

/// <summary>What meeting the goals costs at least from a set done and a key in hand.</summary>
/// <remarks>
/// Work: every landmark not yet done at its cheapest, and for every open choice the option that adds least, each operation counted once.
/// Set-ups, where the triangle inequality holds: the tables of visits. Without it: the cheapest entry into each landmark, or exit from it.
/// </remarks>
internal sealed class OneWayBound
{
    private readonly OneWay _problem;
    private readonly Landmarks _landmarks;
    private readonly ulong[] _forced;
    private readonly Choice[] _choices;
    private readonly int[][] _keys;
    private readonly SetUpBound? _setUps;
    private readonly long[] _entry;
    private readonly long[] _exit;
    private readonly ulong[] _counted;
    private readonly ulong[] _left;

    /// <param name="entries">How many entries a table of visits may have: more make the bound closer, and longer to set up; 0 for none.</param>
    public OneWayBound(OneWay problem, Landmarks landmarks, int entries)
    {
        _problem = problem;
        _landmarks = landmarks;
        _forced = landmarks.Forced;
        Cheapest = new long[problem.Operations];
        _keys = new int[problem.Operations][];
        for (var i = 0; i < problem.Operations; i++)
        {
            var ways = problem.Ways[i];
            _keys[i] = [.. ways.Select(way => way.Key).Distinct()];
            Cheapest[i] = ways.Length == 0 ? 0 : ways.Min(way => way.Cost) - (IsPairPossible(i) ? problem.Shared[i] : 0);
        }

        _choices = [.. Choices()];
        _entry = new long[problem.Operations];
        _exit = new long[problem.Operations];
        if (problem.Triangle && entries > 0)
        {
            _setUps = new SetUpBound(problem, landmarks, _keys, entries);
        }
        else if (!problem.Triangle)
        {
            FillEntries();
        }

        _counted = new ulong[problem.Words];
        _left = new ulong[problem.Words];
    }

    /// <summary>The least that each operation can cost.</summary>
    public long[] Cheapest { get; }

    public long From(ReadOnlySpan<ulong> done, int key)
    {
        var anything = false;
        for (var i = 0; i < _left.Length; i++)
        {
            _left[i] = _forced[i] & ~done[i];
            anything |= _left[i] != 0;
        }

        var work = WorkOfChoices(done);
        for (var i = Bits.Next(_left, 0); i >= 0; i = Bits.Next(_left, i + 1))
        {
            work += Cheapest[i];
        }

        if (!anything)
        {
            return work + (_problem.Triangle || _problem.IsMet(done) ? _problem.Change(key, _problem.EndKey) : 0);
        }

        return work + (_problem.Triangle ? _setUps?.From(_left, key) ?? 0 : EntriesOrExits(key));
    }

    private bool IsPairPossible(int operation) =>
        _problem.PairedFirst[operation] is >= 0 and var first && (Bits.Has(_problem.Allowed, first) || Bits.Has(_problem.Start, first));

    private long WorkOfChoices(ReadOnlySpan<ulong> done)
    {
        if (_choices.Length == 0)
        {
            return 0;
        }

        for (var i = 0; i < _counted.Length; i++)
        {
            _counted[i] = done[i] | _forced[i];
        }

        var total = 0L;
        foreach (var choice in _choices)
        {
            if (Bits.Has(done, choice.Of) || (choice.Set is { } set && Bits.Overlap(set, done)))
            {
                continue;
            }

            var least = long.MaxValue;
            foreach (var (extra, more) in choice.Options)
            {
                var cost = more;
                for (var w = 0; w < extra.Length; w++)
                {
                    for (var rest = extra[w] & ~_counted[w]; rest != 0; rest &= rest - 1)
                    {
                        cost += Cheapest[(w << 6) + System.Numerics.BitOperations.TrailingZeroCount(rest)];
                    }
                }

                least = Math.Min(least, cost);
            }

            if (least > 0)
            {
                total += least;
                foreach (var (extra, _) in choice.Options)
                {
                    Bits.AddAll(_counted, extra);
                }
            }
        }

        return total;
    }

    /// <summary>The open choices of landmarks: which way to take, and which of a set to do.</summary>
    private IEnumerable<Choice> Choices()
    {
        foreach (var goal in _problem.Goals.Where(goal => Bits.Count(goal) > 1))
        {
            yield return OneOf(goal, -1);
        }

        for (var i = Bits.Next(_forced, 0); i >= 0; i = Bits.Next(_forced, i + 1))
        {
            var ways = _problem.Ways[i];
            if (ways.Length > 1)
            {
                var least = ways.Min(way => way.Cost);
                yield return new Choice(i, null, [.. ways.Select(way => (_landmarks.OfWay(way), way.Cost - least))]);
            }
            else
            {
                foreach (var set in ways[0].OneOf)
                {
                    yield return OneOf(set, i);
                }
            }
        }
    }

    private Choice OneOf(ulong[] set, int of)
    {
        var options = new List<(ulong[], long)>();
        for (var i = Bits.Next(set, 0); i >= 0; i = Bits.Next(set, i + 1))
        {
            options.Add((_landmarks.UpTo(i), 0));
        }

        return new Choice(of, set, [.. options]);
    }

    /// <summary>Every landmark left is entered once, and every one but the last is left again.</summary>
    private long EntriesOrExits(int key)
    {
        long entries = 0, exits = 0, lastExit = 0, leave = long.MaxValue;
        for (var i = Bits.Next(_left, 0); i >= 0; i = Bits.Next(_left, i + 1))
        {
            entries += _entry[i];
            exits += _exit[i];
            lastExit = Math.Max(lastExit, _exit[i]);
            foreach (var own in _keys[i])
            {
                leave = Math.Min(leave, _problem.Change(key, own));
            }
        }

        return Math.Max(entries, leave + exits - lastExit);
    }

    private void FillEntries()
    {
        for (var i = Bits.Next(_forced, 0); i >= 0; i = Bits.Next(_forced, i + 1))
        {
            var canBeFirst = Bits.Count(_landmarks.UpTo(i)) == 1;
            _entry[i] = canBeFirst ? _keys[i].Min(own => _problem.Change(_problem.StartKey, own)) : long.MaxValue;
            _exit[i] = long.MaxValue;
            for (var other = Bits.Next(_problem.Allowed, 0); other >= 0; other = Bits.Next(_problem.Allowed, other + 1))
            {
                if (other == i)
                {
                    continue;
                }

                if (MayFollow(other, i))
                {
                    _entry[i] = Math.Min(_entry[i], Nearest(other, i));
                }

                if (MayFollow(i, other))
                {
                    _exit[i] = Math.Min(_exit[i], Nearest(i, other));
                }
            }

            _exit[i] = _exit[i] == long.MaxValue ? 0 : _exit[i];
        }
    }

    /// <summary>Whether the second may come right after the first: not before it, and nothing that must lie between.</summary>
    private bool MayFollow(int first, int second)
    {
        if (Bits.Has(_landmarks.UpTo(first), second))
        {
            return false;
        }

        var before = _landmarks.UpTo(second);
        for (var i = Bits.Next(before, 0); i >= 0; i = Bits.Next(before, i + 1))
        {
            if (i != first && i != second && Bits.Has(_landmarks.UpTo(i), first))
            {
                return false;
            }
        }

        return true;
    }

    private long Nearest(int from, int to)
    {
        var least = long.MaxValue;
        foreach (var a in _keys[from])
        {
            foreach (var b in _keys[to])
            {
                least = Math.Min(least, _problem.Change(a, b));
            }
        }

        return least;
    }

    /// <param name="Of">The operation that chooses, or -1 for a goal.</param>
    /// <param name="Set">What is chosen from; null when the choice is between ways.</param>
    /// <param name="Options">For each option what it asks for, and what it costs beyond the cheapest way.</param>
    private sealed record Choice(int Of, ulong[]? Set, (ulong[] Extra, long More)[] Options);
}
