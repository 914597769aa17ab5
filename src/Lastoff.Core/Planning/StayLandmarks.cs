namespace Lastoff.Core.Planning;

/// <summary>What every way to the goals must pass through: single operations, and sets of which any one operation is enough.</summary>
/// <remarks>
/// Of "laid aside or off" neither is a landmark by itself, yet one of the two must come before what lies behind the part, and in most maps both
/// are done at one place with one tool. A set counts as done with the first of its operations. What must be done before is found as for
/// <see cref="Landmarks"/>, with every set numbered after the operations.
/// </remarks>
internal sealed class StayLandmarks
{
    private readonly OneWay _problem;
    private readonly List<ulong[]> _sets = [];
    private readonly int _words;
    private readonly ulong[][] _before;

    public StayLandmarks(OneWay problem, Landmarks landmarks)
    {
        _problem = problem;
        foreach (var set in problem.Goals.Where(goal => Bits.Count(goal) > 1).Concat(problem.Ways.SelectMany(ways => ways).SelectMany(way => way.OneOf)))
        {
            if (NumberOf(set) < 0)
            {
                _sets.Add(set);
            }
        }

        var count = problem.Operations + _sets.Count;
        _words = (count + 63) / 64;
        _before = new ulong[count][];
        if (_sets.Count == 0)
        {
            Take(Enumerable.Range(0, problem.Operations).Where(i => Bits.Has(landmarks.Forced, i)), landmarks.UpTo);
            return;
        }

        Spread();
        var forced = new ulong[_words];
        foreach (var goal in problem.Goals)
        {
            Bits.AddAll(forced, OfSet(goal));
        }

        Take(Enumerable.Range(0, count).Where(i => Bits.Has(forced, i) && !IsDoneWithAnother(i, forced)), i => _before[i]);
    }

    /// <summary>The operations of each landmark; one of them has to be done.</summary>
    public int[][] Operations { get; private set; } = [];

    /// <summary>For every landmark, those before it that are done at the latest with it.</summary>
    public int[][] Before { get; private set; } = [];

    private void Take(IEnumerable<int> members, Func<int, ulong[]> before)
    {
        int[] taken = [.. members];
        Operations = [.. taken.Select(i => i < _problem.Operations ? [i] : Enumerable.Range(0, _problem.Operations).Where(one => Bits.Has(_sets[i - _problem.Operations], one)).ToArray())];
        Before = [.. taken.Select(i => taken.Index().Where(other => other.Item != i && Bits.Has(before(i), other.Item)).Select(other => other.Index).ToArray())];
    }

    /// <summary>Starts from "everything before everything" and takes away until nothing changes.</summary>
    private void Spread()
    {
        for (var i = 0; i < _before.Length; i++)
        {
            _before[i] = new ulong[_words];
            if (i >= _problem.Operations || Bits.Has(_problem.Allowed, i))
            {
                Array.Fill(_before[i], ulong.MaxValue);
            }
        }

        for (var moved = true; moved;)
        {
            moved = false;
            for (var i = 0; i < _before.Length; i++)
            {
                if (i < _problem.Operations && !Bits.Has(_problem.Allowed, i))
                {
                    continue;
                }

                var now = i < _problem.Operations ? OfOperation(i) : Shared(_sets[i - _problem.Operations], i);
                if (!now.AsSpan().SequenceEqual(_before[i]))
                {
                    _before[i] = now;
                    moved = true;
                }
            }
        }
    }

    private ulong[] OfOperation(int operation)
    {
        var all = new ulong[_words];
        Array.Fill(all, ulong.MaxValue);
        foreach (var way in _problem.Ways[operation])
        {
            var asked = new ulong[_words];
            for (var i = Bits.Next(way.Must, 0); i >= 0; i = Bits.Next(way.Must, i + 1))
            {
                Bits.AddAll(asked, _before[i]);
            }

            foreach (var set in way.OneOf)
            {
                Bits.AddAll(asked, OfSet(set));
            }

            Bits.KeepOnly(all, asked);
        }

        Bits.Add(all, operation);
        for (var set = 0; set < _sets.Count; set++)
        {
            if (Bits.Has(_sets[set], operation))
            {
                Bits.Add(all, _problem.Operations + set);
            }
        }

        return all;
    }

    private ulong[] OfSet(ulong[] set) => NumberOf(set) is >= 0 and var number ? _before[_problem.Operations + number] : _before[Bits.Next(set, 0)];

    private ulong[] Shared(ulong[] set, int number)
    {
        var shared = new ulong[_words];
        Array.Fill(shared, ulong.MaxValue);
        for (var i = Bits.Next(set, 0); i >= 0; i = Bits.Next(set, i + 1))
        {
            Bits.KeepOnly(shared, _before[i]);
        }

        Bits.Add(shared, number);
        return shared;
    }

    /// <summary>Whether an earlier landmark is done at the same moment, whatever is done: each of the two is done at the latest with the other.</summary>
    private bool IsDoneWithAnother(int landmark, ulong[] forced)
    {
        for (var other = Bits.Next(_before[landmark], 0); other >= 0 && other < landmark; other = Bits.Next(_before[landmark], other + 1))
        {
            if (Bits.Has(forced, other) && Bits.Has(_before[other], landmark))
            {
                return true;
            }
        }

        return false;
    }

    private int NumberOf(ulong[] set) => _sets.FindIndex(known => known.AsSpan().SequenceEqual(set));
}
