using System.Globalization;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>Plans a trip for two people: what is done, by whom and when, out and back, so that both ways together are over soonest.</summary>
/// <remarks>
/// It starts from the plan of one person, lets beams of growing width divide that work, turns over the choices of what is done one by one, and
/// then looks for the proof: the way out best first, with the least of the way back added, and the way back from every set that still may win.
/// </remarks>
public sealed class HandsSearch
{
    private const int QuickWidth = 4;

    private static readonly int[] Widths = [16, 64, 256];

    private readonly HandsProblem _problem;
    private readonly HandsBudget _budget;
    private readonly int _states;
    private readonly OperationSet _all;
    private readonly Dictionary<OperationSet, long> _leastBack = [];
    private readonly Dictionary<OperationSet, (IReadOnlyList<HandsStep>? Steps, long Bound)> _back = [];
    private readonly Dictionary<OperationSet, Candidate> _tried = [];

    private HandsSearch(HandsProblem problem, int states, CancellationToken cancel)
    {
        _problem = problem;
        _states = states;
        _budget = new HandsBudget(states, cancel);
        _all = OperationSet.Of(problem.Operations, Enumerable.Range(0, problem.Operations));
    }

    /// <summary>The best plan found, or null when the goals cannot be met.</summary>
    /// <param name="states">How many states the search may keep; it sets memory and time, and the answer is the same on every machine.</param>
    /// <exception cref="OperationCanceledException">The search was called off.</exception>
    public static HandsSchedule? Solve(HandsProblem problem, int states, CancellationToken cancel = default)
    {
        var one = TripSearch.Solve(problem.Trip, states, cancel);
        return one is null ? null : new HandsSearch(problem, states, cancel).Solve(one);
    }

    private HandsSchedule Solve(Trip one)
    {
        var free = Course.Out(_problem, _all, _problem.Trip.Goals)!;
        var alone = OneAfterTheOther.Of(_problem, one);
        var root = PairingBound.Of(free) + LeastBack(free, free.Start);
        var best = alone;
        Keep(ref best, Divide(alone.Undone, QuickWidth));
        foreach (var set in Alternatives(free, alone.Undone))
        {
            if (_budget.Left <= 0)
            {
                break;
            }

            Keep(ref best, Divide(set, QuickWidth));
        }

        foreach (var width in Widths)
        {
            if (best.Ticks > root && _budget.Left > 0)
            {
                Keep(ref best, Divide(best.Undone, width));
            }
        }

        var bound = Math.Min(best.Ticks, Math.Max(root, Prove(free, ref best)));
        return new HandsSchedule(best.Out, best.Back, bound, alone.Ticks, bound == best.Ticks ? null : string.Create(CultureInfo.InvariantCulture,
            $"The search stopped at its limit of {_states} states; two people may be up to {100.0 * (best.Ticks - bound) / best.Ticks:0.0} % quicker."));
    }

    /// <summary>Goes through the ways out that may still win, improves the best, and returns what none can beat.</summary>
    private long Prove(Course free, ref Candidate best)
    {
        var search = new HandsBestFirst(free, set => LeastBack(free, set), _budget);
        var open = long.MaxValue;
        while (search.Next(best.Ticks) is { } end)
        {
            var undone = OperationSet.Over(end.Set);
            var (steps, bound) = Back(undone, best.Ticks - end.End);
            if (steps is not null)
            {
                Keep(ref best, new Candidate(undone, end.History(), steps));
            }
            else if (end.End + bound < best.Ticks)
            {
                open = Math.Min(open, end.End + bound);
            }
        }

        return Math.Min(open, search.Bound);
    }

    /// <summary>The best way back from a set, or null with what it takes at least: not less than asked for, or unproven.</summary>
    private (IReadOnlyList<HandsStep>? Steps, long Bound) Back(OperationSet undone, long lessThan)
    {
        if (_back.TryGetValue(undone, out var known) && (known.Steps is not null || known.Bound >= lessThan))
        {
            return known;
        }

        var course = Course.Back(_problem, undone, undone);
        var search = new HandsBestFirst(course, _ => 0, _budget);
        var steps = search.Next(lessThan)?.History();
        known = (steps, steps is null ? Math.Max(search.Bound, PairingBound.Of(course)) : HandsSchedule.Length(steps));
        _back[undone] = known;
        return known;
    }

    /// <summary>What the way back takes at least when at least this set is undone, with what is sure to be.</summary>
    private long LeastBack(Course free, ulong[] set)
    {
        var sure = (ulong[])set.Clone();
        Bits.AddAll(sure, free.Forced);
        var key = OperationSet.Over(sure);
        if (!_leastBack.TryGetValue(key, out var least))
        {
            var possible = (ulong[])free.Start.Clone();
            Bits.AddAll(possible, free.Members);
            least = PairingBound.Of(Course.Back(_problem, OperationSet.Over(possible), key));
            _leastBack.Add(key, least);
        }

        return least;
    }

    /// <summary>Other sets to undo: for every choice that alternatives differ in, what one person would do if it were made the other way.</summary>
    private IEnumerable<OperationSet> Alternatives(Course free, OperationSet known)
    {
        var trip = _problem.Trip;
        var none = OperationSet.Empty(_problem.Operations);
        for (var i = Bits.Next(free.Members, 0); i >= 0; i = Bits.Next(free.Members, i + 1))
        {
            if (Bits.Has(free.Forced, i))
            {
                continue;
            }

            // What needs itself can never be done.
            var other = known.Contains(i)
                ? trip with { Ways = [.. trip.Ways.Select((ways, at) => at == i ? [ways[0] with { Needs = [none.With(i)] }] : ways)] }
                : trip with { Goals = [.. trip.Goals, none.With(i)] };
            if (TripSearch.Solve(other, 1, _budget.Cancel) is { } found)
            {
                yield return trip.Start.Union(OperationSet.Of(_problem.Operations, found.Out.Select(step => step.Operation)));
            }
        }
    }

    /// <summary>Beams out and back for one set.</summary>
    private Candidate Divide(OperationSet undone, int width)
    {
        if (width == QuickWidth && _tried.TryGetValue(undone, out var known))
        {
            return known;
        }

        var goals = undone.Except(_problem.Trip.Start).Select(OperationSet.Empty(_problem.Operations).With);
        var candidate = new Candidate(
            undone,
            HandsBeam.Run(Course.Out(_problem, undone, goals)!, width, _budget),
            HandsBeam.Run(Course.Back(_problem, undone, undone), width, _budget));
        _tried[undone] = candidate;
        return candidate;
    }

    private static void Keep(ref Candidate best, Candidate candidate)
    {
        if (candidate.Ticks < best.Ticks)
        {
            best = candidate;
        }
    }
}

/// <summary>One way to do it all.</summary>
internal sealed record Candidate(OperationSet Undone, IReadOnlyList<HandsStep> Out, IReadOnlyList<HandsStep> Back)
{
    public long Ticks { get; } = HandsSchedule.Length(Out) + HandsSchedule.Length(Back);
}
