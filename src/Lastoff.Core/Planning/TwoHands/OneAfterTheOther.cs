using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>The plan of one person, under the rules for two: the other does nothing.</summary>
internal static class OneAfterTheOther
{
    public static Candidate Of(HandsProblem problem, Trip one)
    {
        var undone = problem.Trip.Start.Union(OperationSet.Of(problem.Operations, one.Out.Select(step => step.Operation)));
        var goals = undone.Except(problem.Trip.Start).Select(OperationSet.Empty(problem.Operations).With);
        return new Candidate(
            undone,
            Steps(Course.Out(problem, undone, goals)!, one.Out),
            Steps(Course.Back(problem, undone, undone), one.Back));
    }

    private static IReadOnlyList<HandsStep> Steps(Course course, IReadOnlyList<TripStep> order)
    {
        var moves = new HandsMoves(course);
        var state = HandsState.First(course);
        foreach (var step in order)
        {
            state = TakeReadings(course, moves, state);
            state = Begin(course, moves, state, new OneWayStep(step.Operation, Array.FindIndex(course.Ways[step.Operation], way => way.Index == step.Way)));
        }

        return TakeReadings(course, moves, state).History();
    }

    /// <summary>Every reading as soon as it can be taken.</summary>
    private static HandsState TakeReadings(Course course, HandsMoves moves, HandsState state)
    {
        while (moves.From(state.Set).Where(move => move.Operation >= course.Problem.Operations).Cast<OneWayStep?>().FirstOrDefault() is { } reading)
        {
            state = Begin(course, moves, state, reading);
        }

        return state;
    }

    private static HandsState Begin(Course course, HandsMoves moves, HandsState state, OneWayStep move) => moves.Begin(state, move, byA: state.A.Id == 0);
}
