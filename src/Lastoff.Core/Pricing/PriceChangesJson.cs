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

    /// <summary>The list of a text with these changes; or, where the text may not be written over, the one sentence that says why.</summary>
    /// <param name="text">The list as it is kept; empty where there is none yet.</param>
    public static Answer<PriceList> On(PriceChanges changes, string text)
    {
        PriceList? list = null;
        // A list that a later version wrote is a list too, and would be lost.
        return text.Length > 0 && !PriceListJson.Read(text).TryGet(out list, out var sentence)
            ? Answer.None<PriceList>($"The workshop's price list cannot be read here, and nothing is written over it; load this app anew, it may be an older one. {sentence}")
            : list is not null && list.Currency != changes.Currency
            ? Answer.None<PriceList>($"The workshop's price list is in {list.Currency} and its rates are in {changes.Currency}, so nothing is written over it; an owner sets one of them right.")
            : changes.On(list);
    }

    private static PriceChanges Read(JsonFields json)
    {
        json.Only("currency", "items", "taken_off");
        var currency = TermsJson.CurrencyOf(json);
        var changes = PriceListJson.Items(json, currency).Aggregate(PriceChanges.None(currency), (changes, item) => changes.Write(item));
        return json.Texts("taken_off").Aggregate(changes, (changes, name) => changes.TakeOff(name));
    }
}
