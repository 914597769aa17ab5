using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>All plans that undo every operation of one set and none of another, with what they take at least.</summary>
internal sealed class HandsChoice
{
    private const int TableEntries = 200;

    private readonly OperationSet _with;
    private readonly OperationSet _without;

    private HandsChoice(HandsProblem problem, OperationSet with, OperationSet without, Course outward, long atLeast)
    {
        (_with, _without, Out) = (with, without, outward);
        var sure = (ulong[])outward.Start.Clone();
        Bits.AddAll(sure, outward.Forced);
        var possible = (ulong[])outward.Start.Clone();
        Bits.AddAll(possible, outward.Members);
        Undone = OperationSet.Over(sure);
        AllUndecided = OperationSet.Over(possible).Except(Undone);
        Back = Course.Back(problem, OperationSet.Over(possible), Undone);
        LeastOut = PairingBound.Of(Out, TableEntries);
        LeastBack = PairingBound.Of(Back, TableEntries);
        Bound = Math.Max(atLeast, LeastOut + LeastBack);
    }

    public Course Out { get; }
    public Course Back { get; }
    /// <summary>What is undone in all of these plans; once nothing is undecided, all that is.</summary>
    public OperationSet Undone { get; }
    public OperationSet AllUndecided { get; }
    public long LeastOut { get; }
    public long LeastBack { get; }
    public long Bound { get; }

    /// <summary>The operation to decide on next, or null when nothing is undecided: the one of the most work.</summary>
    public int? Undecided => AllUndecided.Count == 0 ? null : AllUndecided.MaxBy(i => Out.LeastWork(i) + Back.LeastWork(i));

    /// <summary>Every plan, or null when the goals cannot be met.</summary>
    public static HandsChoice? Root(HandsProblem problem) =>
        Of(problem, OperationSet.Empty(problem.Operations), OperationSet.Empty(problem.Operations), 0);

    /// <summary>The plans with the operation and those without it, where there are any.</summary>
    public IEnumerable<HandsChoice> Split(HandsProblem problem, int operation)
    {
        HandsChoice?[] sides = [Of(problem, _with.With(operation), _without, Bound), Of(problem, _with, _without.With(operation), Bound)];
        return sides.OfType<HandsChoice>();
    }

    private static HandsChoice? Of(HandsProblem problem, OperationSet with, OperationSet without, long atLeast)
    {
        var all = OperationSet.Of(problem.Operations, Enumerable.Range(0, problem.Operations));
        var none = OperationSet.Empty(problem.Operations);
        var goals = problem.Trip.Goals.Concat(with.Select(none.With));
        return Course.Out(problem, all.Except(without), goals) is { } outward ? new HandsChoice(problem, with, without, outward, atLeast) : null;
    }
}
