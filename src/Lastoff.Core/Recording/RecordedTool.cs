using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>The tool that a reading speaks of or that its drive asks for.</summary>
public static class RecordedTool
{
    /// <summary>What does it up again: a bar, a gun, heat or penetrating oil was for getting it loose, and home it is the plain tool of that head.</summary>
    public static Tool Home(Reading reading) => Of(reading.Tool is { } tool && LineReader.IsForLoosening(tool) ? reading with { Tool = null } : reading);

    public static Tool Of(Reading reading) => (reading.Tool, Key(reading)) switch
    {
        // A wing nut or a star knob.
        (null, null) when reading.Name is { } name && LineReader.IsByHand(name) => Tool.Hand,
        (null, null) => reading.Kind is JointKind.Bolt or JointKind.Nut or JointKind.Stud ? new Tool("spanner or socket", null)
            : reading.Kind is JointKind.Screw ? new Tool("screwdriver", null)
            : Tool.Hand,
        // A spanner takes a head from outside.
        (null, { } key) => new Tool(reading.Drive is null or { Shape: DriveShape.Hex or DriveShape.OuterStar or DriveShape.Square or DriveShape.TwelvePoint } ? "spanner or socket" : "key or bit", key),
        ({ } tool, var key) => new Tool(tool, key),
    };

    /// <summary>The drive as a map writes it: “hex 13 mm”, “inner hex 6 mm”, “T30”; null when neither a size nor a shape was said.</summary>
    private static string? Key(Reading reading)
    {
        var shape = reading.Drive is { } drive ? drive.ToString().Replace('_', ' ') : "hex";
        return reading.Across is { } across ? $"{shape} {RecordedThing.Said(across)}"
            : reading.Drive is null ? null
            : shape;
    }
}
