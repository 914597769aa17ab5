using System.Text.Json.Nodes;
using Lastoff.Core.Fluids;

namespace Lastoff.Core.Pricing;

/// <summary>A price list as JSON, both ways. Decimals may be numbers or texts of digits.</summary>
public static class PriceListJson
{
    /// <summary>The list of a text, or the one sentence that says what is wrong, and where.</summary>
    public static Answer<PriceList> Read(string text) => JsonFields.Read(text, "a price list", Read);

    public static JsonObject Write(PriceList list)
    {
        var json = new JsonObject();
        if (list.About is { } about)
        {
            json["about"] = about;
        }

        json["currency"] = list.Currency.Code;
        json["items"] = new JsonArray([.. list.Items.Select(ToJson)]);
        if (list.Invented)
        {
            json["invented"] = true;
        }

        return json;
    }

    private static JsonObject ToJson(ListedItem item)
    {
        var json = new JsonObject { ["item"] = item.Item };
        if (item.Price is { } price)
        {
            json["price"] = Money.Plain(price);
        }

        if (item.Unit.Length > 0)
        {
            json["unit"] = item.Unit;
        }

        if (item.Containers.Count > 0)
        {
            json["containers"] = new JsonArray([.. item.Containers.Select(container => new JsonObject { ["size_L"] = container.Size_L, ["price"] = Money.Plain(container.Price) })]);
        }

        if (item.CoreCharge is { } core)
        {
            json["core_charge"] = core.Digits;
        }

        return json;
    }

    private static PriceList Read(JsonFields json)
    {
        json.Only("about", "currency", "items", "invented");
        var currency = TermsJson.CurrencyOf(json);
        var items = Items(json, currency);
        return items.CountBy(item => item.Item, StringComparer.OrdinalIgnoreCase).FirstOrDefault(item => item.Value > 1).Key is { } twice
            ? throw new FormatException($"“{twice}” is in the price list twice; leave one out.")
            : new PriceList(currency, items, json.Flag("invented")) { About = json.Remark("about") };
    }

    internal static IReadOnlyList<ListedItem> Items(JsonFields json, Currency currency) => [.. json.Objects("items").Select(item => ItemOf(item, currency))];

    private static ListedItem ItemOf(JsonFields json, Currency currency)
    {
        json.Only("item", "price", "unit", "containers", "core_charge");
        var item = json.Text("item");
        List<ContainerPrice> containers = [.. json.Objects("containers").Select(container => ContainerOf(container, currency))];
        var price = PriceOf(json, currency);
        var core = json.Has("core_charge") ? json.Amount("core_charge", currency) : null;
        return (price is null) == (containers.Count == 0) ? throw new FormatException($"{json.Where} (“{item}”): write either a price for one, or the containers it is bought in.")
            : core is { IsNegative: true } ? throw new FormatException($"{json.Path("core_charge")} is below zero.")
            : containers.DistinctBy(container => container.Size_L).Count() < containers.Count ? throw new FormatException($"{json.Path("containers")}: two are of the same size.")
            : new ListedItem(item, price, json.OptionalText("unit") ?? "") { Containers = containers, CoreCharge = core };
    }

    private static ContainerPrice ContainerOf(JsonFields json, Currency currency)
    {
        json.Only("size_L", "price");
        return new ContainerPrice(
            json.Real("size_L", Containers.LeastLitres, Containers.MostLitres),
            PriceOf(json, currency) ?? throw new FormatException($"{json.Path("price")} is missing; write what the container costs."));
    }

    private static decimal? PriceOf(JsonFields json, Currency currency) => json.OptionalNumber("price", currency) is not { } price ? null
        : ItemFaults.OfPrice(price, currency) is { } fault ? throw new FormatException($"{json.Path("price")} {fault}.")
        : price;
}
