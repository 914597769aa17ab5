using System.Text.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Pricing;

/// <summary>A price as JSON, both ways. Every decimal is a text, so that no reader makes a binary fraction of it.</summary>
/// <remarks>What can be worked out is written too, and on reading it is worked out again: a price that does not add up is refused. Members of a later version are left alone.</remarks>
public static class PriceJson
{
    private const string What = "a price";

    public static JsonObject Write(Price price)
    {
        var json = new JsonObject
        {
            ["currency"] = price.Currency.Code,
            ["rounding"] = RoundingJson.Write(price.Rounding),
            ["lines"] = List(price.Lines, line => Write(line, price.Currency)),
            ["subtotal"] = price.Subtotal.Digits,
            ["before_tax"] = price.BeforeTax.Digits,
            ["taxes"] = List(price.TaxAmounts, tax => new JsonObject
            {
                ["id"] = tax.Tax.Id,
                ["name"] = tax.Tax.Name,
                ["percent"] = Money.Plain(tax.Tax.Percent),
                ["base"] = tax.Base.Digits,
                ["amount"] = tax.Amount.Digits,
            }),
            ["total"] = price.Total.Digits,
            ["deposit"] = price.Deposit.Digits,
        };
        if (price.Discount is { } discount)
        {
            json["discount"] = new JsonObject { ["text"] = discount.Text, ["amount"] = discount.Amount.Digits };
        }

        if (price.Allowance is { } allowance)
        {
            json["allowance"] = Write(allowance, price.Rounding.Half);
        }

        if (price.Hours is { } hours)
        {
            var basis = new JsonObject { ["p50"] = Money.Plain(hours.P50), ["chance"] = hours.Chance, ["at_chance"] = Money.Plain(hours.AtChance) };
            if (hours.FromJobs is { } jobs)
            {
                basis["from_jobs"] = jobs;
            }

            json["hours"] = basis;
        }

        if (price.Limit is { } limit)
        {
            json["limit"] = PortionJson.Write(limit);
        }

        json["unpriced"] = List(price.Unpriced, unpriced => new JsonObject { ["text"] = unpriced.Text, ["item"] = unpriced.Item, ["quantity"] = Money.Plain(unpriced.Quantity), ["unit"] = unpriced.Unit });
        if (price.Payment.Length > 0)
        {
            json["payment"] = price.Payment;
        }

        if (price.Invented)
        {
            json["invented"] = true;
        }

        return json;
    }

    /// <summary>The price of a whole text, or the one sentence that says what is wrong with it.</summary>
    public static Answer<Price> Read(string text) => JsonFields.Read(text, What, Read);

    /// <summary>The price of an element, or the one sentence that says what is wrong with it.</summary>
    public static Answer<Price> Read(JsonElement element) => JsonFields.Of(element, What, Read);

    private static Price Read(JsonFields json)
    {
        var currency = TermsJson.CurrencyOf(json);
        var rounding = RoundingJson.Read(json.Object("rounding"), currency);
        var draft = new PriceDraft(currency, rounding, [.. json.Objects("lines").Select((line, i) => Line(line, i, currency, rounding.Half))])
        {
            Taxes = [.. json.Objects("taxes").Select(tax => new Tax(tax.Text("id"), tax.Text("name"), tax.Number("percent")))],
            Discount = json.Has("discount") && json.Object("discount") is var discount ? new Discount(discount.Text("text"), discount.Amount("amount", currency)) : null,
            Allowance = json.Has("allowance") ? AllowanceOf(json.Object("allowance"), currency) : null,
            Hours = json.Has("hours") && json.Object("hours") is var hours
                ? new Hours(hours.Number("p50"), hours.Real("chance", PriceTerms.LeastChance, PriceTerms.MostChance), hours.Number("at_chance")) { FromJobs = hours.Has("from_jobs") ? Whole(hours, "from_jobs") : null }
                : null,
            Unpriced = [.. json.Objects("unpriced").Select(unpriced => new Unpriced(unpriced.Text("text"), unpriced.Number("quantity"), unpriced.OptionalText("unit") ?? "") { Item = unpriced.OptionalText("item") ?? unpriced.Text("text") })],
            Deposit = json.Has("deposit") && json.Amount("deposit", currency) is { IsZero: false } deposit ? deposit : null,
            Limit = json.Has("limit") ? PortionJson.Read(json.Object("limit"), currency, "total") : null,
            Payment = json.OptionalText("payment") ?? "",
            Invented = json.Flag("invented"),
        };
        var price = Price.Of(draft).Or(sentence => throw new FormatException(sentence));
        Check(json, price);
        return price;
    }

    private static PriceLine Line(JsonFields line, int index, Currency currency, HalfWay half)
    {
        var read = PriceLine.Of(
            currency, half, line.Word<LineGroup>("group"), line.Text("text"), line.Number("quantity"), line.OptionalText("unit") ?? "",
            line.OptionalNumber("unit_price", currency) ?? throw new FormatException($"{line.Path("unit_price")} is missing; write what one costs."),
            line.Texts("taxes"), line.OptionalNumber("discount_percent") ?? 0).Or(sentence => throw new FormatException($"Line {index + 1}: {sentence}"));
        var says = line.Amount("amount", currency);
        return says == read.Amount ? read : throw new FormatException($"The price does not add up: line {index + 1}, “{read.Text}”, comes to {read.Amount}, and it says {says}.");
    }

    private static void Check(JsonFields json, Price price)
    {
        Same("subtotal", json.Amount("subtotal", price.Currency), price.Subtotal);
        Same("sum before tax", json.Amount("before_tax", price.Currency), price.BeforeTax);
        foreach (var (said, tax) in json.Objects("taxes").Zip(price.TaxAmounts))
        {
            Same($"sum that “{tax.Tax.Name}” is on", said.Amount("base", price.Currency), tax.Base);
            Same($"tax “{tax.Tax.Name}”", said.Amount("amount", price.Currency), tax.Amount);
        }

        Same("total", json.Amount("total", price.Currency), price.Total);
        if (price.Allowance is { } allowance && json.Object("allowance") is var told)
        {
            Same("expected allowance", told.Amount("expected", price.Currency), allowance.Expected(price.Rounding.Half));
            Same("most of the allowance", told.Amount("most", price.Currency), allowance.Most);
        }
    }

    private static int Whole(JsonFields json, string name) =>
        json.Real(name, 0, 1_000_000) is var number && number == Math.Floor(number) ? (int)number : throw new FormatException($"{json.Path(name)} is {number}; it counts jobs.");

    private static void Same(string what, Money says, Money is_)
    {
        if (says != is_)
        {
            throw new FormatException($"The price does not add up: the {what} comes to {is_}, and it says {says}.");
        }
    }

    private static JsonObject Write(PriceLine line, Currency currency)
    {
        var json = new JsonObject
        {
            ["group"] = Words<LineGroup>.Of(line.Group),
            ["text"] = line.Text,
            ["quantity"] = Money.Plain(line.Quantity),
            ["unit"] = line.Unit,
            ["unit_price"] = Money.UnitDigits(line.UnitPrice, currency),
            ["amount"] = line.Amount.Digits,
            ["taxes"] = new JsonArray([.. line.Taxes.Select(tax => JsonValue.Create(tax))]),
        };
        if (line.DiscountPercent != 0)
        {
            json["discount_percent"] = Money.Plain(line.DiscountPercent);
        }

        return json;
    }

    private static JsonObject Write(Allowance allowance, HalfWay half) => new()
    {
        ["troubles"] = List(allowance.Troubles, trouble => new JsonObject
        {
            ["text"] = trouble.Text,
            ["chance"] = trouble.Chance,
            ["minutes"] = trouble.Minutes,
            ["cost"] = trouble.Cost.Digits,
        }),
        ["taxes"] = new JsonArray([.. allowance.Taxes.Select(tax => JsonValue.Create(tax))]),
        ["expected"] = allowance.Expected(half).Digits,
        ["most"] = allowance.Most.Digits,
    };

    private static Allowance AllowanceOf(JsonFields json, Currency currency) => new(
        [.. json.Objects("troubles").Select(trouble => new Trouble(trouble.Text("text"), trouble.Real("chance", 0, 1), trouble.Real("minutes", 0, 100_000), trouble.Amount("cost", currency)))],
        json.Texts("taxes"));

    private static JsonArray List<T>(IEnumerable<T> items, Func<T, JsonObject> each) => new([.. items.Select(each)]);
}
