namespace Lastoff.Core.Planning;

/// <summary>What every way of meeting the goals must pass through, whichever alternatives are taken.</summary>
/// <remarks>
/// The landmarks of an operation are itself and, for every way of it, all that the way asks for; over alternatives only what all of them share
/// stays. The largest such sets are found by starting from "everything" and taking away until nothing changes.
/// </remarks>
internal sealed class Landmarks
{
    private readonly OneWay _problem;
    private readonly ulong[][] _before;

    public Landmarks(OneWay problem)
    {
        _problem = problem;
        _before = new ulong[problem.Operations][];
        for (var i = 0; i < _before.Length; i++)
        {
            _before[i] = Bits.Has(problem.Allowed, i) ? (ulong[])problem.Allowed.Clone() : new ulong[problem.Words];
        }

        for (var moved = true; moved;)
        {
            moved = false;
            for (var i = Bits.Next(problem.Allowed, 0); i >= 0; i = Bits.Next(problem.Allowed, i + 1))
            {
                var now = OfOperation(i);
                if (!now.AsSpan().SequenceEqual(_before[i]))
                {
                    _before[i] = now;
                    moved = true;
                }
            }
        }

        Forced = new ulong[problem.Words];
        foreach (var goal in problem.Goals)
        {
            Bits.AddAll(Forced, OfOneOf(goal));
        }
    }

    /// <summary>What must be done on the way to every end, beyond the start.</summary>
    public ulong[] Forced { get; }

    /// <summary>What must be done before an operation is done, and itself.</summary>
    public ulong[] UpTo(int operation) => _before[operation];

    public ulong[] OfWay(OneWayWay way)
    {
        var all = new ulong[_problem.Words];
        for (var i = Bits.Next(way.Must, 0); i >= 0; i = Bits.Next(way.Must, i + 1))
        {
            Bits.AddAll(all, _before[i]);
        }

        foreach (var set in way.OneOf)
        {
            Bits.AddAll(all, OfOneOf(set));
        }

        return all;
    }

    private ulong[] OfOneOf(ulong[] set)
    {
        var shared = new ulong[_problem.Words];
        Array.Fill(shared, ulong.MaxValue);
        for (var i = Bits.Next(set, 0); i >= 0; i = Bits.Next(set, i + 1))
        {
            Bits.KeepOnly(shared, _before[i]);
        }

        return shared;
    }

    private ulong[] OfOperation(int operation)
    {
        var shared = (ulong[])_problem.Allowed.Clone();
        foreach (var way in _problem.Ways[operation])
        {
            Bits.KeepOnly(shared, OfWay(way));
        }

        Bits.Add(shared, operation);
        return shared;
    }
}
