using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Recording;
using static Lastoff.App.Words.Speech;

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
        Deed.Undone => Say("Undone"),
        Deed.Loose => Say("Slackened"),
        Deed.Off => Say("Off"),
        Deed.Aside => Say("Laid aside"),
        Deed.Safe => Say("Made safe"),
        Deed.Drained => Say("Drained"),
        Deed.InTheWay => Say("In the way"),
        Deed.NotInTheWay => Say("Not in the way"),
        Deed.Covered => reading.Cover is { } cover && LineReader.IsHold(cover) ? Say("Held") : Say("Covered"),
        Deed.Uncovered => Say("Cover out"),
        Deed.Wanted => Say("Still to be had"),
        Deed.Here => Say("Is here"),
        _ => Say("Note"),
    };

    private static IEnumerable<string> Fields(Reading reading)
    {
        if (RecordedThing.IsItself(reading))
        {
            yield return reading.Count is { } several ? $"{several}" : "";
        }
        else if (reading.Deed is Deed.Undone or Deed.Loose)
        {
            var kind = Say(Words<JointKind>.Of(RecordedThing.KindOf(reading)) + (reading.Count > 1 ? "s" : ""));
            // “2 hydraulic hoses”, and not “2 hoses, hydraulic hoses”; “plug lead”, for nobody calls that a connector.
            var isSaid = reading.Name is { } name && (name.EndsWith(kind, StringComparison.OrdinalIgnoreCase) || reading.Kind == JointKind.Connector);
            yield return $"{(reading.Count is { } count ? $"{count} " : "")}{(isSaid ? reading.Name : kind)}";
            yield return isSaid ? "" : reading.Name ?? "";
        }
        else if (reading is { Deed: Deed.Note, Kind: not null })
        {
            yield return RecordedThing.JointName(reading);
        }
        else if (reading.Deed is Deed.Covered or Deed.Uncovered)
        {
            yield return $"{(reading.Count is { } count and > 1 ? $"{count} × " : "")}{reading.Cover}";
        }
        else if (reading.Deed is Deed.Safe or Deed.Drained)
        {
            yield return reading.Fluid ?? (reading.Supply is { } supply ? Say(Words<SupplyKind>.Of(supply).Replace('_', ' ')) : "");
            yield return reading.Volume_L is { } litres ? $"{Figures.Number(litres)} L" : "";
        }

        else if (reading.Deed == Deed.Wanted)
        {
            var name = reading.Part is [_, var second, ..] part && char.IsLower(second) ? StepWords.Small(part) : reading.Part;
            yield return $"{(reading.Count is { } count ? $"{count} " : "")}{(reading.Of is { } whose ? Say($"{name}, of {whose}") : name)}";
            yield return reading.Broken ? Say("broken") : "";
            yield break;
        }

        yield return reading is { Deed: Deed.InTheWay or Deed.NotInTheWay, Of: { } of } ? Say($"{reading.Part}, of {of}")
            : reading is { Deed: Deed.Note, Kind: not null } ? ""
            // “Spark plug lead” says what it is of.
            : reading is { Kind: JointKind.Connector, Name: { } itself, Part: { } owner } && itself.StartsWith(owner, StringComparison.OrdinalIgnoreCase) ? ""
            : reading.Part ?? (reading.Deed is Deed.Off or Deed.Aside ? reading.Name ?? "" : "");
        yield return reading.Across is { } size ? RecordedThing.Said(size) : "";
        yield return reading.Thread?.ToString() ?? "";
        yield return reading.Drive?.ToString().Replace('_', ' ') ?? "";
        yield return reading.Length is { } length ? $"{RecordedThing.Said(length)} {Say("long")}" : "";
        yield return reading.At is { } at ? StepWords.Small(Figures.Place(at)) : "";
        yield return reading.Tray is { } tray ? Say(Trays.Called(tray)) : "";
        yield return reading.Captive ? Say("captive") : "";
        yield return reading.LeftHand ? Say("left-hand thread") : "";
        yield return reading.OneTime ? Say("new ones on the way back") : "";
        yield return reading.Broken ? Say("broken") : "";
        yield return reading.Seized ? Say("seized") : "";
        // A bonded washer or a gasket belongs to it; nobody sealed it just now.
        yield return reading.Sealed ? Say("with a seal") : "";
        yield return reading.Torque is { } torque ? $"{Figures.Number(torque.NewtonMetres)} N·m" : "";
        yield return reading.Tool is { } tool ? $"{Say("with")} {tool.Replace("with ", "", StringComparison.OrdinalIgnoreCase)}" : "";
        yield return reading.Note is { } note ? reading.Deed == Deed.Note ? note : Say($"“{note}”") : "";
    }
}
