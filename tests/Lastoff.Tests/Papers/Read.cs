using System.Text.Json.Nodes;
using System.Xml.Linq;
using Lastoff.Core.Papers;

namespace Lastoff.Tests.Papers;

/// <summary>Papers read back, as a program or a person reads them.</summary>
internal static class Read
{
    public static JsonNode Json(Paper paper) => JsonNode.Parse(PaperJson.Write(paper))!;

    public static XElement Html(Paper paper) => XDocument.Parse(PaperHtml.Write(paper)).Root!;

    public static IEnumerable<JsonNode> Blocks(JsonNode paper, string heading) =>
        from section in paper["sections"]!.AsArray()
        where (string)section!["heading"]! == heading
        from block in section["blocks"]!.AsArray()
        select block;

    /// <summary>The rows of every table under a heading, each as its cells.</summary>
    public static List<JsonArray> Rows(JsonNode paper, string heading) =>
        [.. from block in Blocks(paper, heading)
            where block["rows"] is not null
            from row in block["rows"]!.AsArray()
            select row!["cells"]!.AsArray()];

    public static List<JsonNode> List(JsonNode paper, string heading) =>
        [.. from block in Blocks(paper, heading) where block["list"] is not null from item in block["list"]!.AsArray() select item];

    public static JsonNode Fact(JsonNode paper, string name) =>
        (from section in paper["sections"]!.AsArray()
         from block in section!["blocks"]!.AsArray()
         where block!["facts"] is not null
         from fact in block["facts"]!.AsArray()
         where (string)fact!["name"]! == name
         select fact).Single();

    /// <summary>Every text of the paper's JSON that the page has to show too.</summary>
    public static IEnumerable<string> Texts(JsonNode node) => node switch
    {
        JsonObject item => item.SelectMany(member => member.Key is "text" or "heading" or "caution" or "title" or "name" or "machine" or "basis" or "caption" && member.Value is JsonValue value && value.TryGetValue<string>(out var text)
            ? [text]
            : member.Value is null ? [] : Texts(member.Value)),
        JsonArray list => list.SelectMany(item => item is null ? [] : Texts(item)),
        _ => [],
    };
}
