using Lastoff.Core.Maps;
using Lastoff.Core.Maps.Editing;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.MapEditing;

/// <summary>What the editor calls what stands in a map.</summary>
public static class MapWords
{
    /// <summary>The values an item can have in a field of words.</summary>
    public static IReadOnlyList<string> Choices(MapSection section, string field) => (section, field) switch
    {
        (_, "at") => Words<Position>.All,
        (MapSection.Supplies, _) => Words<SupplyKind>.All,
        _ => Words<JointKind>.All,
    };

    public static string Plain(string word) => word.Replace('_', ' ');

    public static string Heading(MapSection section) => section switch
    {
        MapSection.Supplies => Say("Supplies"),
        MapSection.Parts => Say("Parts"),
        _ => Say("Joints"),
    };

    public static string Adding(MapSection section) => section switch
    {
        MapSection.Supplies => Say("Add supply"),
        MapSection.Parts => Say("Add part"),
        _ => Say("Add joint"),
    };

    public static string Removing(MapSection section) => section switch
    {
        MapSection.Supplies => Say("Remove this supply"),
        MapSection.Parts => Say("Remove this part"),
        _ => Say("Remove this joint"),
    };

    /// <summary>One of the ways to reach a joint: "Regulator off or aside, from the left, with open wrench, hex 17 mm, 2.5 times as long".</summary>
    public static string Of(EditedWay way, EditedMap map)
    {
        var said = string.Join(", ", new[]
        {
            way.Clear.Count > 0 ? Say($"{Called(way.Clear, map)} off or aside") : "",
            way.Off.Count > 0 ? Say($"{Called(way.Off, map)} off") : "",
            way.At.Length > 0 ? Say($"from {Say(way.At)}") : "",
            way.Tool.Length > 0 ? Say($"with {way.Tool}") : "",
            way.Drive,
            way.Times.Length > 0 ? Say($"{way.Times} times as long") : "",
        }.Where(word => word.Length > 0));
        return said.Length > 0 ? said : Say("as it is");
    }

    /// <summary>How something waits for a part: "waits until it is off".</summary>
    public static string Waits(string field) => field switch
    {
        "holds" => Say("holds it"),
        "reach.clear" => Say("waits until it is off or aside"),
        "reach.off" => Say("waits until it is off"),
        _ => Say("waits on one of its ways"),
    };

    public static string Called(IEnumerable<string> ids, EditedMap map) => string.Join(", ", ids.Select(id => Called(id, map)));

    public static string Called(string id, EditedMap map) => map.Items.FirstOrDefault(item => item.Id == id)?.Called ?? Say($"{id}, which is not in the map");
}
