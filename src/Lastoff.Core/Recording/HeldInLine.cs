using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Which fasteners of a line hold a hose, a pipe, or a thing that is fast by itself, of that line: they came off before it, whichever was named first (common practice, no source).</summary>
internal static class HeldInLine
{
    /// <summary>The places of the readings that tell of what holds the thing at a place; none where nothing of the line can.</summary>
    public static IEnumerable<int> ClampsOf(IReadOnlyList<Reading> readings, int at) => IsHeld(readings[at])
        ? Enumerable.Range(0, readings.Count).Where(other => IsOn(readings[other], readings[at], Math.Abs(other - at) == 1))
        : [];

    private static bool IsOn(Reading fastener, Reading held, bool isBeside) => fastener is { Deed: Deed.Undone or Deed.Loose, Kind: { } kind } && !IsHose(fastener)
        && ((held.Name ?? held.Part) is { } name && name.Equals(fastener.Part, StringComparison.OrdinalIgnoreCase)
            // “Hose off, clamp too”.
            || kind == JointKind.Clamp && isBeside && IsHose(held) && fastener.Part == held.Part);

    /// <summary>“Rod unhooked, cotter pin in tray 1”: with no joint named, the rod is fast by itself.</summary>
    private static bool IsHeld(Reading reading) => IsHose(reading) || RecordedThing.IsItself(reading);

    private static bool IsHose(Reading reading) => reading is { Deed: Deed.Undone or Deed.Loose, Kind: JointKind.Hose or JointKind.Pipe };
}
