namespace Lastoff.Core.Recording;

/// <summary>Fasteners that go into each other's holes and are not as long: what the next hand has to know before they go back.</summary>
internal static class MixedLengths
{
    /// <summary>Within one set, as far as its line says; null when it says nothing of it.</summary>
    public static string? InSet(Reading reading) => reading is { Note: { } note, Count: null or > 1 } && reading.IsTurned() && LineReader.SaysLengthsDiffer(note)
        ? $"Not all of one length: “{note}”. Look where each came from."
        : null;

    /// <summary>Between this set and others of the same part; null when none of them fits here and is of another length.</summary>
    public static string? Beside(Reading reading, IEnumerable<Reading> others)
    {
        List<string> lengths = [.. others.Where(other => Fits(reading, other) && other.Length != reading.Length).Select(other => RecordedThing.Said(other.Length!.Value)).Distinct()];
        return lengths.Count == 0 || reading.Length is not { } length ? null : $"These are {RecordedThing.Said(length)} long, others of the same part {string.Join(" and ", lengths)}: each into its own hole.";
    }

    private static bool Fits(Reading one, Reading other) => other.Length is not null && one.Kind == other.Kind
        && (one.Thread is not { } thread || other.Thread is not { } same || thread.Diameter == same.Diameter) && (one.Across is null || other.Across is null || one.Across == other.Across);
}
