using System.Globalization;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>Plans a trip for two people: what is done, by whom and when, out and back, so that both ways together are over soonest.</summary>
/// <remarks>
/// It starts from the plan of one person, lets beams of growing width divide that work, turns over the choices of what is undone one by one, and
/// then looks for the proof: the choices are split, least bound first, until what is undone is settled; then each way is searched best first.
/// </remarks>
public sealed class HandsSearch
{
    private const int QuickWidth = 4;

    /// <summary>What a side of a split counts for, per operation: it has its own tables and its own flow, and takes about as long as so many states.</summary>
    private const int StatesPerSplit = 10;

    private static readonly int[] Widths = [16, 64, 256];

    private readonly HandsProblem _problem;
    private readonly HandsBudget _budget;
    private readonly int _states;
    private readonly Dictionary<OperationSet, Candidate> _tried = [];

    private HandsSearch(HandsProblem problem, int states, CancellationToken cancel)
    {
        _problem = problem;
        _states = states;
        _budget = new HandsBudget(states, cancel);
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
        var alone = OneAfterTheOther.Of(_problem, one);
        var root = HandsChoice.Root(_problem)!;
        var best = alone;
        Keep(ref best, Divide(alone.Undone, QuickWidth));
        foreach (var set in Alternatives(root, alone.Undone))
        {
            if (_budget.Left > 0)
            {
                Keep(ref best, Divide(set, QuickWidth));
            }
        }

        foreach (var width in Widths)
        {
            if (best.Ticks > root.Bound && _budget.Left > 0)
            {
                Keep(ref best, Divide(best.Undone, width));
            }
        }

        var bound = Prove(root, ref best);
        bound = Math.Min(bound, best.Ticks);
        return new HandsSchedule(best.Out, best.Back, bound, alone.Ticks, bound == best.Ticks ? null : string.Create(CultureInfo.InvariantCulture,
            $"The search stopped at its limit of {_states} states; two people may be up to {100.0 * (best.Ticks - bound) / best.Ticks:0.0} % quicker."));
    }

    /// <summary>Splits the choices of what to undo until every set that may still win is settled; returns what no plan can beat.</summary>
    private long Prove(HandsChoice root, ref Candidate best)
    {
        var open = new PriorityQueue<HandsChoice, (long Bound, int Number)>();
        var number = 0;
        open.Enqueue(root, (root.Bound, number));
        while (open.TryDequeue(out var choice, out _))
        {
            if (choice.Bound >= best.Ticks || _budget.Left <= 0)
            {
                return choice.Bound;
            }

            _budget.Cancel.ThrowIfCancellationRequested();
            if (choice.Undecided is not { } operation)
            {
                // What stays unsettled here is no lower than anything still open.
                if (Settle(choice, ref best) is var bound && bound < best.Ticks)
                {
                    return bound;
                }

                continue;
            }

            foreach (var side in choice.Split(_problem, operation))
            {
                _budget.Left -= StatesPerSplit * _problem.Operations;
                open.Enqueue(side, (side.Bound, ++number));
            }
        }

        return long.MaxValue;
    }

    /// <summary>Finds the best way out and the best way back of one set, as far as they can beat the best plan; returns what the set takes at least.</summary>
    private long Settle(HandsChoice choice, ref Candidate best)
    {
        Keep(ref best, Divide(choice.Undone, QuickWidth));
        var outward = new HandsBestFirst(choice.Out, _budget);
        var there = outward.End(best.Ticks - choice.LeastBack, _budget.Left / 2);
        var leastOut = Math.Max(choice.LeastOut, there?.End ?? outward.Bound);
        var back = new HandsBestFirst(choice.Back, _budget);
        var home = back.End(best.Ticks - leastOut, 0);
        if (there is not null && home is not null)
        {
            Keep(ref best, new Candidate(choice.Undone, there.History(), home.History()));
        }

        var leastBack = Math.Max(choice.LeastBack, home?.End ?? back.Bound);
        return leastOut >= best.Ticks || leastBack >= best.Ticks ? best.Ticks : Math.Max(choice.Bound, leastOut + leastBack);
    }

    /// <summary>Other sets to undo: for every choice that alternatives differ in, what one person would do if it were made the other way.</summary>
    private IEnumerable<OperationSet> Alternatives(HandsChoice root, OperationSet known)
    {
        var trip = _problem.Trip;
        var none = OperationSet.Empty(_problem.Operations);
        foreach (var i in root.AllUndecided)
        {
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
