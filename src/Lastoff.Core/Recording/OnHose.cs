using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Which fasteners of a line are on a hose or pipe of that line: they came off before it, whichever was named first (common practice, no source).</summary>
internal static class OnHose
{
    /// <summary>The places of the readings that tell of what holds the hose or pipe at a place; none where that is neither.</summary>
    public static IEnumerable<int> ClampsOf(IReadOnlyList<Reading> readings, int at) => IsHose(readings[at])
        ? Enumerable.Range(0, readings.Count).Where(other => IsOn(readings[other], readings[at], Math.Abs(other - at) == 1))
        : [];

    private static bool IsOn(Reading fastener, Reading hose, bool isBeside) => fastener is { Deed: Deed.Undone or Deed.Loose, Kind: { } kind } && !IsHose(fastener)
        && (hose.Name is { } name && name.Equals(fastener.Part, StringComparison.OrdinalIgnoreCase)
            // “Hose off, clamp too”.
            || kind == JointKind.Clamp && isBeside && fastener.Part == hose.Part);

    private static bool IsHose(Reading reading) => reading is { Deed: Deed.Undone or Deed.Loose, Kind: JointKind.Hose or JointKind.Pipe };
}
