namespace Lastoff.Core.Maps.Editing;

/// <summary>The lists of a map file, in the order they stand in it.</summary>
public enum MapSection { Supplies, Parts, Joints, Openings, Renewals, Proofs }

public static class MapSections
{
    /// <summary>The word for one of what stands in a section: “joint”.</summary>
    public static string Sort(this MapSection section) => section == MapSection.Supplies ? "supply" : Words<MapSection>.Of(section)[..^1];
}

/// <summary>What the sections and their fields are called in a file, and in which order they stand there.</summary>
internal static class SectionFields
{
    public static IReadOnlyList<string> OfMap { get; } =
        ["format", "name", "title", "invented", "learned", "about", "lessons", "set_up_min", "collide", .. Enum.GetValues<MapSection>().Select(Heading)];

    /// <summary>Within a field that has fields of its own.</summary>
    public static IReadOnlyList<string> Within { get; } = ["name", "drive", "clear", "off", "either"];

    private static readonly string[] Item =
    [
        "id", "name", "kind", "count", "holds", "captive", "one_time", "clean", "on", "for", "at", "tool", "thread", "torque", "tighten", "tray", "cover", "cover_min",
        "unit", "off_min", "on_min", "undo_min", "make_min", "cures_min", "minutes", "safe_min", "runs_min", "restore_min", "make_safe", "restore", "amount", "fluid",
        "needs", "reach", "aside", "rides_on", "risk", "hold", "limit", "within_percent", "caution", "notes",
    ];

    // A count comes last in a renewal, before its unit, and early in a joint.
    private static readonly string[] Renewal = ["id", "name", "kind", "for", "count", "unit"];

    public static IReadOnlyList<string> Of(MapSection section) => section == MapSection.Renewals ? Renewal : Item;

    public static string Heading(MapSection section) => Words<MapSection>.Of(section);

    /// <summary>Whether the field is a number or a flag, which stand without quotes.</summary>
    public static bool IsBare(string field) =>
        field.EndsWith("_min", StringComparison.Ordinal) || field is "count" or "captive" or "one_time" or "clean" or "minutes" or "chance" or "times" or "invented" or "learned";

    /// <summary>The field within that is meant when a field has a plain value: a tool's name, the parts of a reach to be cleared.</summary>
    public static string? Short(string field) => field switch
    {
        "tool" => "name",
        "reach" => "clear",
        _ => null,
    };
}
