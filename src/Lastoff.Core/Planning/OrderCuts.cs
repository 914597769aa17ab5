namespace Lastoff.Core.Planning;

/// <summary>What orders cost at least because they must get from each operation to what comes after it: set-ups split into that and a rest for each arc.</summary>
/// <remarks>
/// On the way from one operation to a later one lies nothing that must come before the first or after the second. Cut that stretch anywhere, and one of
/// the arcs across the cut is used: the least of them is due, and is taken off all of them. What an assignment charges is taken off in the same way. No rest gets below
/// zero, so any order costs at least <see cref="Due"/> and the rests of its arcs. (A dual ascent over the cuts of Balas, Fischetti and Pulleyblank,
/// "The precedence-constrained asymmetric traveling salesman polytope", 1995.)
/// </remarks>
internal sealed class OrderCuts
{
    private const int Rounds = 8;

    private readonly OrderProblem _problem;
    private readonly int _ends;
    private readonly List<int> _reaching = [];
    private readonly List<int> _others = [];

    private OrderCuts(OrderProblem problem)
    {
        _problem = problem;
        _ends = problem.Ends;
        Rest = [.. Enumerable.Range(0, _ends + 1).SelectMany(from => problem.ArcsFrom(from).ToArray())];
    }

    /// <summary>What every order costs beyond the rests of its arcs.</summary>
    public long Due { get; private set; }

    /// <summary>What is left of every arc, row after row.</summary>
    public long[] Rest { get; }

    public static OrderCuts Of(OrderProblem problem, CancellationToken cancel)
    {
        var cuts = new OrderCuts(problem);
        for (var round = 0; round < Rounds; round++)
        {
            var before = cuts.Due;
            cuts.ChargeAssignment();
            for (var i = 0; i < cuts._ends; i++)
            {
                cancel.ThrowIfCancellationRequested();
                cuts.ChargeWay(cuts._ends, i);
                cuts.ChargeWay(i, cuts._ends);
                for (var later = Bits.Next(problem.After[i], 0); later >= 0; later = Bits.Next(problem.After[i], later + 1))
                {
                    cuts.ChargeWay(i, later);
                }
            }

            if (cuts.Due == before)
            {
                break;
            }
        }

        return cuts;
    }

    private void ChargeAssignment()
    {
        var assigned = new AssignmentBound(Rest, _ends).Root();
        Due += assigned.Cost;
        for (var arc = 0; arc < Rest.Length; arc++)
        {
            if (Rest[arc] < OrderProblem.Barred)
            {
                Rest[arc] -= assigned.Price[arc / (_ends + 1)] + assigned.PriceAsNext[arc % (_ends + 1)];
            }
        }
    }

    /// <summary>Charges for the way from one operation to a later one, until it has a way on which no rest is left.</summary>
    private void ChargeWay(int from, int to)
    {
        while (!Reaches(from, to))
        {
            var least = long.MaxValue;
            foreach (var a in _others)
            {
                foreach (var b in _reaching)
                {
                    least = Math.Min(least, Rest[a * (_ends + 1) + b]);
                }
            }

            Due += least;
            foreach (var a in _others)
            {
                foreach (var b in _reaching)
                {
                    if (Rest[a * (_ends + 1) + b] is < OrderProblem.Barred and var rest)
                    {
                        Rest[a * (_ends + 1) + b] = rest - least;
                    }
                }
            }
        }
    }

    /// <summary>Collects what reaches the end of the way over arcs without a rest, and what else may lie on it.</summary>
    private bool Reaches(int from, int to)
    {
        _reaching.Clear();
        _others.Clear();
        _reaching.Add(to);
        _others.Add(from);
        for (var i = 0; i < _ends; i++)
        {
            if (i != from && i != to && !(from < _ends && Bits.Has(_problem.Before[from], i)) && !(to < _ends && Bits.Has(_problem.After[to], i)))
            {
                _others.Add(i);
            }
        }

        for (var at = 0; at < _reaching.Count; at++)
        {
            for (var other = _others.Count - 1; other >= 0; other--)
            {
                if (Rest[_others[other] * (_ends + 1) + _reaching[at]] == 0)
                {
                    if (other == 0)
                    {
                        return true;
                    }

                    _reaching.Add(_others[other]);
                    _others.RemoveAt(other);
                }
            }
        }

        return false;
    }
}
