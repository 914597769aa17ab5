using System.Text.Json.Nodes;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Pricing;

/// <summary>The owner's terms as JSON, both ways. Decimals may be numbers or texts of digits.</summary>
public static class TermsJson
{
    /// <summary>The terms of a text, or the one sentence that says what is wrong, and where.</summary>
    public static Answer<PriceTerms> Read(string text) => JsonFields.Read(text, "price terms", Read);

    public static JsonObject Write(PriceTerms terms)
    {
        var json = new JsonObject
        {
            ["workshop"] = new JsonObject { ["name"] = terms.Workshop.Name, ["address"] = new JsonArray([.. terms.Workshop.Address.Select(line => JsonValue.Create(line))]) },
            ["currency"] = terms.Currency.Code,
            ["hourly_rate"] = Money.UnitDigits(terms.HourlyRate, terms.Currency),
            ["chance"] = terms.Chance,
            ["taxes"] = new JsonArray([.. terms.Taxes.Select(tax => new JsonObject
            {
                ["id"] = tax.Id,
                ["name"] = tax.Name,
                ["percent"] = Money.Plain(tax.Percent),
                ["on"] = new JsonArray([.. tax.On.Select(group => JsonValue.Create(Words<LineGroup>.Of(group)))]),
            })]),
            ["rounding"] = RoundingJson.Write(terms.Rounding),
            ["mark_up_percent"] = Money.Plain(terms.MarkUpPercent),
            ["payment"] = terms.Payment,
        };
        foreach (var (name, portion) in new[] { ("sundries", terms.Sundries), ("limit", terms.Limit), ("deposit", terms.Deposit) })
        {
            if (portion is not null)
            {
                json[name] = PortionJson.Write(portion);
            }
        }

        if (terms.Invented)
        {
            json["invented"] = true;
        }

        return json;
    }

    internal static Currency CurrencyOf(JsonFields json) => Currency.Of(json.Text("currency")).Or(sentence => throw new FormatException(sentence));

    private static PriceTerms Read(JsonFields json)
    {
        json.Only("about", "workshop", "currency", "hourly_rate", "chance", "taxes", "rounding", "mark_up_percent", "payment", "sundries", "limit", "deposit", "invented");
        var currency = CurrencyOf(json);
        var workshop = json.Object("workshop");
        workshop.Only("name", "address");
        var taxes = json.Objects("taxes").Select(TaxOf).ToList();
        return taxes.CountBy(tax => tax.Id).FirstOrDefault(tax => tax.Value > 1).Key is { } twice
            ? throw new FormatException($"Two taxes have the identifier “{twice}”; give each its own.")
            : new PriceTerms(new Workshop(workshop.Text("name"), workshop.Texts("address")), currency, Rate(json, currency))
            {
                Chance = json.Has("chance") ? json.Real("chance", PriceTerms.LeastChance, PriceTerms.MostChance) : 0.9,
                Taxes = taxes,
                Rounding = json.Has("rounding") ? RoundingJson.Read(json.Object("rounding"), currency) : Rounding.Usual,
                MarkUpPercent = json.OptionalNumber("mark_up_percent", 0, 1000, " %") ?? 0,
                Payment = json.OptionalText("payment") ?? "",
                Sundries = Portion(json, "sundries", currency, "labour"),
                Limit = Portion(json, "limit", currency, "agreed total"),
                Deposit = Portion(json, "deposit", currency, "total"),
                Invented = json.Flag("invented"),
            };
    }

    private static decimal Rate(JsonFields json, Currency currency)
    {
        var rate = json.OptionalNumber("hourly_rate", currency) ?? throw new FormatException("hourly_rate is missing; write what an hour of work costs.");
        return rate is < 0 or > 1_000_000_000 ? throw new FormatException($"hourly_rate is {Money.Plain(rate)} {currency}; give 0 or more, and no more than 1000000000.")
            : decimal.Round(rate, currency.Decimals + PriceLine.UnitPriceDecimals) != rate ? throw new FormatException($"hourly_rate {Money.Plain(rate)} has more than {currency.Decimals + PriceLine.UnitPriceDecimals} decimals.")
            : rate;
    }

    private static Tax TaxOf(JsonFields json)
    {
        json.Only("id", "name", "percent", "on");
        var tax = new Tax(json.Text("id"), json.Text("name"), json.Number("percent"));
        if (PriceFaults.Fault(tax) is { } fault)
        {
            throw new FormatException(fault);
        }

        return json.Has("on")
            ? tax with
            {
                On = [.. json.Texts("on").Select((word, i) => Words<LineGroup>.TryRead(word, out var group)
                    ? group
                    : throw new FormatException($"{json.Path("on")}[{i}] is “{word}”; it can be {string.Join(", ", Words<LineGroup>.All)}."))],
            }
            : tax;
    }

    private static Portion? Portion(JsonFields json, string name, Currency currency, string of) =>
        json.Has(name) ? PortionJson.Read(json.Object(name), currency, of) : null;
}
