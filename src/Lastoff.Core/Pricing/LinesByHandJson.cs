using System.Text.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Pricing;

/// <summary>What a person wrote into a price and left out of it as JSON, both ways. Every decimal is a text; members of a later version are left alone.</summary>
internal static class LinesByHandJson
{
    /// <summary>What an element says, or the one sentence that says what is wrong with it.</summary>
    public static Answer<LinesByHand> Read(JsonElement element) => JsonFields.Of(element, "what was written by hand", json => new LinesByHand(
        [.. json.Objects("lines").Select(line => new HandLine(line.Word<LineGroup>("group"), line.Text("text"), line.Number("quantity"), line.Number("unit_price")))],
        [.. json.Objects("left_out").Select(left => new LeftOut(left.Text("key"), left.Text("reason")))]));

    public static JsonObject Write(LinesByHand byHand) => new()
    {
        ["lines"] = new JsonArray([.. byHand.Added.Select(line => new JsonObject
        {
            ["group"] = Words<LineGroup>.Of(line.Group),
            ["text"] = line.Text,
            ["quantity"] = Money.Plain(line.Quantity),
            ["unit_price"] = Money.Plain(line.UnitPrice),
        })]),
        ["left_out"] = new JsonArray([.. byHand.LeftOut.Select(left => new JsonObject { ["key"] = left.Key, ["reason"] = left.Reason })]),
    };
}
