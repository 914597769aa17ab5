namespace Lastoff.Core.Recording;

/// <summary>“One flange bolt stuck”, some lines after “four flange bolts out”: it may be one of the four, and then no other comes home.</summary>
public static class OneOfThem
{
    /// <param name="before">What was told in the lines before, the last first.</param>
    /// <returns>The readings, with the question at those that may be of what was told before.</returns>
    public static IReadOnlyList<Reading> Asked(IReadOnlyList<Reading> readings, IReadOnlyList<Reading> before) =>
    [
        .. readings.Select(reading => IsTrouble(reading) && before.FirstOrDefault(group => IsAmong(reading, group)) is { Count: { } count } group && (reading.Part is not null || ReferenceEquals(group, before[0]))
            ? reading with { Question = new Question(Doubt.OneOfThem, count) { Else = reading.Question } }
            : reading),
    ];

    /// <summary>What is left to tell of one that was told with the others: that it gave trouble, and where it broke, that a new one is needed.</summary>
    internal static Reading Of(Reading one) => one.Broken
        ? new Reading { Deed = Deed.Wanted, Part = RecordedThing.JointName(one), Count = one.Count ?? 1, Note = one.Note }
        : one with { Deed = Deed.Note };

    /// <summary>That a thing came hard is told behind its deed; put in a tray by itself, it is by itself.</summary>
    private static bool IsTrouble(Reading reading) => reading is { Deed: Deed.Undone, Tray: null, Question: null or { Doubt: Doubt.IsItOut } } && reading.IsTurned() && (reading.Seized || reading.Broken);

    private static bool IsAmong(Reading one, Reading group) => group.Deed is Deed.Undone or Deed.Loose && group.Kind == one.Kind && group.Count > (one.Count ?? 1)
        && Same(one.Part, group.Part) && Same(one.Name?.TrimEnd('s'), group.Name?.TrimEnd('s')) && (one.Across is null || one.Across == group.Across);

    private static bool Same(string? one, string? other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
