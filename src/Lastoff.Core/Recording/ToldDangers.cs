using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Core.Recording;

/// <summary>What to heed at what a line tells of, while it is told.</summary>
/// <remarks>Common practice, no source.</remarks>
public static class ToldDangers
{
    /// <param name="isSafe">Whether a supply of the kind is made safe or drained by now: of what it holds, only the rest can come.</param>
    public static IReadOnlyList<string> Of(IReadOnlyList<Reading> readings, Func<SupplyKind, bool> isSafe)
    {
        var isClosed = readings.Any(reading => reading.Deed == Deed.Covered);
        return [.. readings.SelectMany(reading => Of(reading, isSafe, isClosed)).Distinct()];
    }

    /// <param name="isClosed">Whether the line says that what was opened is closed.</param>
    internal static IEnumerable<string> Of(Reading reading, Func<SupplyKind, bool> isSafe, bool isClosed)
    {
        if (reading is { Deed: Deed.Safe, Supply: null } && LineReader.IsPressed(reading.Part))
        {
            yield return Cautions.OfPressure;
        }
        else if (reading.Deed is Deed.Safe or Deed.Drained)
        {
            yield return Cautions.OfSupply(RecordedThing.SupplyOf(reading), restoring: false);
        }
        else if (reading is { Deed: Deed.Undone or Deed.Loose, Kind: JointKind.Hose or JointKind.Pipe })
        {
            if (Line(reading, isSafe) is { } caution)
            {
                yield return caution;
            }

            if (!isClosed)
            {
                yield return Cautions.OfOpenEnds;
            }
        }

        if (LineReader.IsHeated(reading))
        {
            yield return Cautions.OfHeat;
        }

        if (reading is { Kind: null, Deed: Deed.Undone or Deed.Loose or Deed.Off or Deed.Aside, Part: { } part } && LineReader.IsSpring(part))
        {
            yield return Cautions.OfSpring;
        }
    }

    /// <summary>By its own name before that of what it is on: “fuel hose off the heater”.</summary>
    private static string? Line(Reading reading, Func<SupplyKind, bool> isSafe) => (LineReader.Carried(reading.Name) ?? LineReader.Carried(reading.Part)) switch
    {
        null => null,
        { Supply: { } kind } => isSafe(kind) ? Cautions.OfOpening(kind) : Cautions.OfSupply(kind, restoring: false),
        _ => Cautions.OfPressure,
    };
}
