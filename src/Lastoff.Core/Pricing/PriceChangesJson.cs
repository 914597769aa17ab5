using System.Text.Json.Nodes;

namespace Lastoff.Core.Pricing;

/// <summary>Changes to a price list as JSON, both ways: the items written as a list has them, and the names of those taken off.</summary>
public static class PriceChangesJson
{
    /// <summary>The changes of a text, or the one sentence that says what is wrong, and where.</summary>
    public static Answer<PriceChanges> Read(string text) => JsonFields.Read(text, "changes to a price list", Read);

    public static JsonObject Write(PriceChanges changes)
    {
        var json = PriceListJson.Write(new PriceList(changes.Currency, changes.Written));
        json["taken_off"] = new JsonArray([.. changes.TakenOff.Select(name => JsonValue.Create(name))]);
        return json;
    }

    private static PriceChanges Read(JsonFields json)
    {
        json.Only("currency", "items", "taken_off");
        var currency = TermsJson.CurrencyOf(json);
        var changes = PriceListJson.Items(json, currency).Aggregate(PriceChanges.None(currency), (changes, item) => changes.Write(item));
        return json.Texts("taken_off").Aggregate(changes, (changes, name) => changes.TakeOff(name));
    }
}
