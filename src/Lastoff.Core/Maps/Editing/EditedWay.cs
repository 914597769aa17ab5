namespace Lastoff.Core.Maps.Editing;

/// <summary>One of the ways under "reach.either", as it stands in the text; what it does not say is empty.</summary>
public sealed record EditedWay(IReadOnlyList<string> Clear, IReadOnlyList<string> Off, string At, string Tool, string Drive, string Times)
{
    internal static EditedWay From(YamlMapping way)
    {
        var tool = way.Find("with")?.Value;
        var (name, drive) = tool is YamlMapping fields ? (Text(fields, "name"), Text(fields, "drive")) : ((tool as YamlScalar)?.Text.Trim() ?? "", "");
        return new EditedWay(Names(way, "clear"), Names(way, "off"), Text(way, "at"), name, drive, Text(way, "times"));
    }

    private static string Text(YamlMapping way, string field) => (way.Find(field)?.Value as YamlScalar)?.Text.Trim() ?? "";

    private static IReadOnlyList<string> Names(YamlMapping way, string field) => way.Find(field)?.Value is YamlList list ? EditedItem.NamesIn(list) : [];
}
