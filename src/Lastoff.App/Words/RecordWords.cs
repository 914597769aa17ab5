using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.App.Words;

/// <summary>How a reading of a recorded line is said back.</summary>
public static class RecordWords
{
    /// <summary>“Undone: 3 bolts, 12 mm, generator bracket, tray 2”.</summary>
    public static string Of(Reading reading)
    {
        var joined = string.Join(", ", Fields(reading).Where(field => field.Length > 0));
        return joined.Length == 0 ? DeedWord(reading) : $"{DeedWord(reading)}: {joined}";
    }

    private static string DeedWord(Reading reading) => reading.Deed switch
    {
        Deed.Undone => "Undone",
        Deed.Loose => "Slackened",
        Deed.Off => "Off",
        Deed.Aside => "Laid aside",
        Deed.Safe => "Made safe",
        Deed.Drained => "Drained",
        Deed.InTheWay => "In the way",
        Deed.NotInTheWay => "Not in the way",
        Deed.Covered => "Covered",
        Deed.Uncovered => "Cover out",
        _ => "Note",
    };

    private static IEnumerable<string> Fields(Reading reading)
    {
        if (reading.Deed is Deed.Undone or Deed.Loose)
        {
            yield return $"{(reading.Count is { } count ? $"{count} " : "")}{Words<JointKind>.Of(RecordedThing.KindOf(reading))}{(reading.Count > 1 ? "s" : "")}";
            yield return reading.Name ?? "";
        }
        else if (reading.Deed is Deed.Covered or Deed.Uncovered)
        {
            yield return $"{(reading.Count is { } count ? $"{count}, " : "")}{reading.Cover}";
        }
        else if (reading.Deed is Deed.Safe or Deed.Drained)
        {
            yield return reading.Fluid ?? (reading.Supply is { } supply ? Words<SupplyKind>.Of(supply).Replace('_', ' ') : "");
            yield return reading.Volume_L is { } litres ? $"{Figures.Number(litres)} L" : "";
        }

        yield return reading is { Deed: Deed.InTheWay or Deed.NotInTheWay, Of: { } of } ? $"{reading.Part}, of {of}" : reading.Part ?? (reading.Deed is Deed.Off or Deed.Aside ? reading.Name ?? "" : "");
        yield return reading.Across is { } size ? RecordedThing.Said(size) : "";
        yield return reading.Thread?.ToString() ?? "";
        yield return reading.Drive?.ToString().Replace('_', ' ') ?? "";
        yield return reading.Length is { } length ? $"{RecordedThing.Said(length)} long" : "";
        yield return reading.At is { } at ? Figures.Place(at).ToLowerInvariant() : "";
        yield return reading.Tray is { } tray ? Trays.Called(tray) : "";
        yield return reading.Captive ? "captive" : "";
        yield return reading.LeftHand ? "left-hand thread" : "";
        yield return reading.OneTime ? "new ones on the way back" : "";
        yield return reading.Broken ? "broken" : "";
        yield return reading.Seized ? "seized" : "";
        yield return reading.Sealed ? "sealed" : "";
        yield return reading.Torque is { } torque ? $"{Figures.Number(torque.NewtonMetres)} N·m" : "";
        yield return reading.Tool is { } tool ? $"with {tool.Replace("with ", "", StringComparison.OrdinalIgnoreCase)}" : "";
        yield return reading.Note is { } note ? reading.Deed == Deed.Note ? note : $"“{note}”" : "";
    }
}
