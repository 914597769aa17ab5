namespace Lastoff.Core.Learning;

/// <summary>The words about orders that stand in recorded lines, of one recording or of several.</summary>
internal static class RecordedWords
{
    /// <summary>Those that a map can say and that go together. Of lines that contradict each other nobody can say which is right, so none of them counts and the strips decide.</summary>
    /// <param name="holding">What the lines tell of joints and parts.</param>
    /// <param name="person">What a person says now; it stays, and a recorded word against it goes.</param>
    public static IReadOnlyList<Said> ThatHold(IReadOnlyList<RecordedStrip> strips, IReadOnlyList<Said> holding, IReadOnlyList<Said> person)
    {
        var seen = new Sightings([.. strips.Select(strip => strip.Strip)]);
        IReadOnlyList<Said> words = [.. Agreed(strips).Where(word => LearnedMap.Fault(word, seen) is null)];
        while (words.Count > 0)
        {
            var order = new LearnedOrder(seen, [.. holding, .. words, .. person]);
            IReadOnlyList<Said> straight = order.Circle() is null ? words : [.. words.Where(word => !word.InTheWay || !order.IsInACircle(word))];
            if (straight.Count == words.Count)
            {
                break;
            }

            words = straight;
        }

        return words;
    }

    /// <summary>What one recording says was in the way, and another that it was not.</summary>
    public static IEnumerable<(string First, string Then)> Contradicted(IReadOnlyList<RecordedStrip> strips) =>
        from pair in ByPair(strips) where pair.Select(word => word.InTheWay).Distinct().Count() > 1 select pair.Key;

    private static IEnumerable<Said> Agreed(IReadOnlyList<RecordedStrip> strips) =>
        from pair in ByPair(strips) where pair.Select(word => word.InTheWay).Distinct().Count() == 1 select pair.First();

    /// <summary>Within a recording a later line puts an earlier one right; between recordings there is no later.</summary>
    private static IEnumerable<IGrouping<(string First, string Then), Said>> ByPair(IReadOnlyList<RecordedStrip> strips) =>
        strips.SelectMany(strip => strip.Said.GroupBy(word => (word.First, word.Then)).Select(same => same.Last())).GroupBy(word => (word.First, word.Then));
}
