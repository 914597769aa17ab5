using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Planning.TwoHands;

namespace Lastoff.Tests.Planning.TwoHands;

/// <summary>The least ticks two people need, by going tick by tick through everything either could begin or leave until later.</summary>
/// <remarks>
/// It shares nothing with the search but the problem: it knows no order of steps, no bounds and no earliest starts. At every tick each of the two
/// who is idle begins something that the rules allow at that tick, or does not. For a few operations of a few ticks only.
/// </remarks>
internal sealed class EveryMoment
{
    private readonly HandsProblem _problem;
    private readonly RoundTrip _trip;
    private readonly int _size;
    private readonly HashSet<int> _wanted = [];
    private readonly Dictionary<Moment, long> _out = [];
    private readonly Dictionary<Moment, long> _back = [];

    private EveryMoment(HandsProblem problem)
    {
        _problem = problem;
        _trip = problem.Trip;
        _size = problem.Trip.Ways.Count;
        foreach (var set in _trip.Goals.Append(_trip.Start))
        {
            Want(set);
        }
    }

    public static long Best(HandsProblem problem)
    {
        var every = new EveryMoment(problem);
        return every.Out(every.First(problem.Trip.Start.Aggregate(0, (bits, i) => bits | 1 << i)));
    }

    /// <summary>What a goal or something done asks for, what that asks for by any of its ways, and so on.</summary>
    private void Want(OperationSet set)
    {
        foreach (var x in set.Where(_wanted.Add).ToList())
        {
            foreach (var need in _trip.Ways[x].SelectMany(way => way.Needs))
            {
                Want(need);
            }
        }
    }

    private Moment First(int set)
    {
        var hold = _problem.Holds[_trip.StartKey];
        var person = new Person(hold.Tool, hold.At, 0, -1, 0);
        return new Moment(set, person, person, hold.At == Position.Below, 0, new Waits(_trip.Lags.Count));
    }

    /// <summary>The least ticks from here to the end of everything, while on the way out.</summary>
    private long Out(Moment now)
    {
        if (_out.TryGetValue(now, out var known))
        {
            return known;
        }

        var best = long.MaxValue;
        if (now.P.Busy == 0 && now.Q.Busy == 0 && _trip.Goals.All(goal => goal.Any(i => Has(now.Set, i))))
        {
            var proofs = Enumerable.Range(0, _problem.Proofs.Count).Where(p => _problem.Proofs[p].By.Any(i => Has(now.Set, i))).Sum(p => 1 << (_size + p));
            best = Back(First(now.Set | proofs));
        }

        foreach (var x in _wanted)
        {
            foreach (var (p, q, swap) in now.Idle())
            {
                for (var w = 0; w < _trip.Ways[x].Count; w++)
                {
                    var shared = _trip.Pairs.Where(pair => pair.Then == x && Has(now.Set, pair.First)).Sum(pair => pair.SharedOut);
                    if (MayBegin(x, w) && Begin(now, p, q, x, w, _problem.Holds[_trip.Ways[x][w].Key], _trip.Ways[x][w].Out - shared, lag => lag.Then == x, lag => lag.Before == x ? lag.Out : null, now.Set | 1 << x) is { } then)
                    {
                        best = Math.Min(best, Out(swap ? then.Swapped() : then));
                    }
                }

                bool MayBegin(int x, int w) =>
                    !Has(now.Set, x)
                    && !_trip.Pairs.Any(pair => pair.First == x && Has(now.Set, pair.Then) || pair.Then == x && q.Busy > 0 && q.Operation == pair.First)
                    && _trip.Ways[x][w].Needs.All(need => need.Any(i => Has(now.Set, i) && !(q.Busy > 0 && q.Operation == i)));
            }
        }

        if (now.IsGoingOn)
        {
            best = Math.Min(best, Later(Out(now.ATickLater())));
        }

        _out.Add(now, best);
        return best;
    }

    /// <summary>The least ticks from here to the end, on the way back; the set is what is not yet begun to be reversed, proofs above it.</summary>
    private long Back(Moment now)
    {
        if (now.Set == 0)
        {
            return Math.Max(now.P.Busy, now.Q.Busy);
        }

        if (_back.TryGetValue(now, out var known))
        {
            return known;
        }

        var best = long.MaxValue;
        for (var x = 0; x < _size + _problem.Proofs.Count; x++)
        {
            if (!Has(now.Set, x))
            {
                continue;
            }

            var left = now.Set & ~(1 << x);
            foreach (var (p, q, swap) in now.Idle())
            {
                if (q.Busy > 0 && !HoldsUp(q.Operation, q.Way, left) || Awaits(x).Any(i => Has(left, i) || q.Busy > 0 && q.Operation == i))
                {
                    continue;
                }

                if (x >= _size)
                {
                    if (Begin(now, p, q, x, 0, null, _problem.Proofs[x - _size].Ticks, _ => false, _ => null, left) is { } read)
                    {
                        best = Math.Min(best, Back(swap ? read.Swapped() : read));
                    }

                    continue;
                }

                for (var w = 0; w < _trip.Ways[x].Count; w++)
                {
                    var counted = _problem.Proofs.Where(proof => proof.By.Contains(x)).Sum(proof => proof.Ticks);
                    var work = _trip.Ways[x][w].Back - counted - _trip.Pairs.Where(pair => pair.Then == x && Has(left, pair.First)).Sum(SharedBack);
                    if (HoldsUp(x, w, left) && Begin(now, p, q, x, w, _problem.Holds[_trip.Ways[x][w].Key], work, lag => lag.Before == x, lag => lag.Then == x ? lag.Back : null, left) is { } then)
                    {
                        best = Math.Min(best, Back(swap ? then.Swapped() : then));
                    }
                }
            }
        }

        if (now.IsGoingOn)
        {
            best = Math.Min(best, Later(Back(now.ATickLater())));
        }

        _back.Add(now, best);
        return best;
    }

    private long SharedBack(TripPair pair) =>
        pair.SharedBack - _problem.Proofs.Where(proof => proof.By.Contains(pair.First) && proof.By.Contains(pair.Then)).Sum(proof => proof.Ticks);

    /// <summary>Whether an operation that is being reversed still has all it needs undone.</summary>
    private bool HoldsUp(int operation, int way, int left) =>
        operation >= _size || _trip.Ways[operation][way].Needs.All(need => need.Any(i => Has(left, i)));

    /// <summary>What must be back, or read, before a proof is taken; of a pair, the second before the first; and what is read before something is back.</summary>
    private IEnumerable<int> Awaits(int x)
    {
        if (x < _size)
        {
            return _trip.Pairs.Where(pair => pair.First == x).Select(pair => pair.Then)
                .Concat(Enumerable.Range(0, _problem.Proofs.Count).Where(p => _problem.Proofs[p].Before.Contains(x)).Select(p => _size + p));
        }

        var proof = _problem.Proofs[x - _size];
        return proof.NeedsAll
            ? Enumerable.Range(0, x).Concat(Enumerable.Range(_size, _problem.Proofs.Count).Where(i => !_problem.Proofs[i - _size].NeedsAll))
            : proof.Awaits.Concat(Enumerable.Range(_size, x - _size).Where(i => !_problem.Proofs[i - _size].NeedsAll && _problem.Proofs[i - _size].By == proof.By && _problem.Proofs[i - _size].Before == proof.Before));
    }

    /// <summary>The moment after a person has begun a step, or null when tool, place, lift or a wait forbid it now.</summary>
    private Moment? Begin(Moment now, Person p, Person q, int x, int w, Hold? hold, long work, Func<TripLag, bool> waits, Func<TripLag, long?> starts, int set)
    {
        if (now.LiftMoves > 0)
        {
            return null;
        }

        var (setUp, liftMoves, tool, at) = (0L, 0L, p.Tool, p.At);
        if (hold is { } wanted)
        {
            var movesLift = wanted.At == Position.Below != now.LiftIsUp;
            var theirs = q.Busy > 0 && q.Operation < _size ? q : default(Person?);
            if (movesLift && q.Busy > 0
                || theirs is { } other && (wanted.Tool != 0 && other.Tool == wanted.Tool || _problem.Collisions.Between(wanted.At, other.At)))
            {
                return null;
            }

            setUp = (wanted.Tool != 0 && wanted.Tool != p.Tool ? _problem.SetUp.Tool : 0)
                + (wanted.At != p.At ? _problem.SetUp.Place : 0)
                + (movesLift ? _problem.SetUp.Lift : 0);
            liftMoves = movesLift ? setUp : 0;
            (tool, at) = (wanted.Tool, wanted.At);
            q = q.Tool == wanted.Tool ? q with { Tool = 0 } : q;
        }

        for (var i = 0; i < _trip.Lags.Count; i++)
        {
            if (waits(_trip.Lags[i]) && now.Waits[i] > setUp)
            {
                return null;
            }
        }

        var left = now.Waits;
        for (var i = 0; i < _trip.Lags.Count; i++)
        {
            if (starts(_trip.Lags[i]) is { } ticks)
            {
                left = left.With(i, (int)(setUp + work + ticks));
            }
        }

        return new Moment(set, new Person(tool, at, (int)(setUp + work), x, w), q, hold is { } there ? there.At == Position.Below : now.LiftIsUp, (int)liftMoves, left);
    }

    private static bool Has(int set, int i) => (set >> i & 1) != 0;

    private static long Later(long ticks) => ticks == long.MaxValue ? ticks : ticks + 1;

    private readonly record struct Person(int Tool, Position At, int Busy, int Operation, int Way)
    {
        public Person ATickLater() => this with { Busy = Math.Max(0, Busy - 1) };
    }

    private readonly record struct Moment(int Set, Person P, Person Q, bool LiftIsUp, int LiftMoves, Waits Waits)
    {
        public bool IsGoingOn => P.Busy > 0 || Q.Busy > 0 || Waits.IsAnyLeft;

        public IEnumerable<(Person P, Person Q, bool Swap)> Idle()
        {
            if (P.Busy == 0)
            {
                yield return (P, Q, false);
            }

            if (Q.Busy == 0)
            {
                yield return (Q, P, true);
            }
        }

        public Moment Swapped() => this with { P = Q, Q = P };

        public Moment ATickLater() => new(Set, P.ATickLater(), Q.ATickLater(), LiftIsUp, Math.Max(0, LiftMoves - 1), Waits.ATickLater());
    }

    /// <summary>What is left of up to three waits.</summary>
    private readonly record struct Waits(int Count, int A = 0, int B = 0, int C = 0)
    {
        public int this[int i] => i switch { 0 => A, 1 => B, _ => C };

        public bool IsAnyLeft => A > 0 || B > 0 || C > 0;

        public Waits With(int i, int ticks) => i switch { 0 => this with { A = ticks }, 1 => this with { B = ticks }, _ => this with { C = ticks } };

        public Waits ATickLater() => this with { A = Math.Max(0, A - 1), B = Math.Max(0, B - 1), C = Math.Max(0, C - 1) };
    }
}
