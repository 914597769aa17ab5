namespace Lastoff.Core.Planning.TwoHands;

/// <summary>A good course at once: of all states with the same number of steps begun only the most promising go on.</summary>
internal static class HandsBeam
{
    /// <param name="course">One that is met when all its members are begun.</param>
    /// <returns>The steps, in the order in which they begin.</returns>
    public static IReadOnlyList<HandsStep> Run(Course course, int width, HandsBudget budget)
    {
        var moves = new HandsMoves(course);
        var bound = new HandsBound(course);
        List<HandsState> level = [HandsState.First(course)];
        while (!course.IsMet(level[0].Set))
        {
            budget.Cancel.ThrowIfCancellationRequested();
            var next = new Dictionary<ulong, List<HandsState>>();
            foreach (var state in level)
            {
                foreach (var move in moves.From(state.Set))
                {
                    Add(next, moves.Begin(state, move, byA: true), bound);
                    Add(next, moves.Begin(state, move, byA: false), bound);
                }
            }

            level = [.. next.Values.SelectMany(states => states).OrderBy(state => state.Bound).ThenBy(state => state.Load).Take(width)];
            budget.Left -= level.Count;
        }

        return level.MinBy(state => state.End)!.History();
    }

    private static void Add(Dictionary<ulong, List<HandsState>> next, HandsState state, HandsBound bound)
    {
        var likeness = state.Likeness();
        if (!next.TryGetValue(likeness, out var alike))
        {
            next.Add(likeness, alike = []);
        }

        if (!alike.Exists(other => other.IsAlike(state) && other.Outdoes(state)))
        {
            alike.RemoveAll(other => other.IsAlike(state) && state.Outdoes(other));
            state.Bound = bound.From(state);
            alike.Add(state);
        }
    }
}
