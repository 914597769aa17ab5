namespace Lastoff.Core.Recording;

/// <summary>What a line speaks of that names nothing itself: “tied up out of the way”, “lip torn”.</summary>
internal static class SpokenOf
{
    /// <summary>What was told last.</summary>
    /// <param name="before">What was told in the lines before, the last first.</param>
    public static Reading? Last(IReadOnlyList<Reading>? before) => before?.FirstOrDefault(reading => reading.Deed is Deed.Undone or Deed.Loose or Deed.Off or Deed.Aside);

    /// <summary>The part, or a hose or plug itself; null for fasteners of nobody knows what.</summary>
    public static string? Name(Reading told) => told.IsTurned() || told.Kind is null ? told.Part : told.Name ?? told.Part ?? RecordedThing.JointName(told);
}
