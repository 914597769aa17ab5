using System.Text.Json.Nodes;
using CsCheck;
using Lastoff.Core.Pricing;

namespace Lastoff.Tests.Pricing;

/// <summary>What can be wrong with terms, lists and prices: one clear sentence each, that names the place.</summary>
public class BadPricesTests
{
    private const string Terms = """
        {"workshop": {"name": "Invented Workshop", "address": ["Nowhere Lane 1"]}, "currency": "EUR", "hourly_rate": 82.5, "chance": 0.9,
         "taxes": [{"id": "vat", "name": "VAT", "percent": 20, "on": ["labour", "parts"]}], "rounding": {"half": "up", "tax_per": "line", "cash_step": 0.05},
         "mark_up_percent": 10, "sundries": {"percent": 3}, "limit": {"amount": "50.00 EUR"}, "deposit": {"percent": 30}, "payment": "On collection."}
        """;

    private static readonly Currency Euro = Currency.Of("EUR").Value!;

    [Fact]
    public void Sound_terms_are_read_as_they_were_written()
    {
        var terms = TermsJson.Read(Terms.Replace("\"chance\": 0.9", "\"chance\": \"0.9\"")).Value!;
        Assert.Equal((82.5m, 0.9, "Invented Workshop", 0.05m), (terms.HourlyRate, terms.Chance, terms.Workshop.Name, terms.Rounding.CashStep!.Value));
        Assert.Equal([LineGroup.Labour, LineGroup.Parts], terms.Taxes.Single().On);
        Assert.Equal("50.00 EUR", terms.Limit!.ToString());
        var written = TermsJson.Write(terms).ToJsonString();
        Assert.Equal(written, TermsJson.Write(TermsJson.Read(written).Value!).ToJsonString());
    }

    [Theory]
    [InlineData("\"hourly_rate\": 82.5", "\"hourly_rate\": -82.5", "hourly_rate is -82.5 EUR; give 0 or more")]
    [InlineData("\"hourly_rate\": 82.5", "\"hourly_rate\": \"82,50\"", "hourly_rate is not a number such as 12.50")]
    [InlineData("\"hourly_rate\": 82.5", "\"hourly_rate\": \"82.50 USD\"", "hourly_rate is in USD")]
    [InlineData("\"hourly_rate\": 82.5,", "", "hourly_rate is missing")]
    [InlineData("\"percent\": 20", "\"percent\": 1000", "The tax “VAT” is 1000 %")]
    [InlineData("\"percent\": 20", "\"percent\": -1", "The tax “VAT” is -1 %")]
    [InlineData("\"name\": \"VAT\"", "\"name\": \" \"", "taxes[0].name is missing")]
    [InlineData("\"currency\": \"EUR\"", "\"currency\": \"EUX\"", "“EUX” is no current currency")]
    [InlineData("\"currency\": \"EUR\"", "\"currency\": \"XAU\"", "no minor unit")]
    [InlineData("\"name\": \"Invented Workshop\"", "\"name\": \"\"", "workshop.name is missing")]
    [InlineData("\"name\": \"Invented Workshop\"", "\"name\": \"Shop \\u202e kcab\"", "workshop.name holds a character that turns the reading direction round (U+202E)")]
    [InlineData("\"name\": \"Invented Workshop\"", "\"name\": \"Shop\\u0007\"", "workshop.name holds a control character (U+0007)")]
    [InlineData("\"name\": \"Invented Workshop\"", "\"name\": \"Shop \\ud83d\"", "not valid Unicode")]
    [InlineData("\"chance\": 0.9", "\"chance\": 0.99", "chance is 0.99; give 0.5 to 0.95")]
    [InlineData("\"chance\": 0.9", "\"chance\": 0.4", "chance is 0.4; give 0.5 to 0.95")]
    [InlineData("\"chance\": 0.9", "\"chance\": \"often\"", "chance is not a number such as 0.9")]
    [InlineData("\"half\": \"up\"", "\"half\": \"down\"", "rounding.half is “down”; it can be up, even")]
    [InlineData("\"cash_step\": 0.05", "\"cash_step\": 0.003", "a cash step of 0.003 is none for EUR")]
    [InlineData("\"on\": [\"labour\", \"parts\"]", "\"on\": [\"labor\"]", "taxes[0].on[0] is “labor”")]
    [InlineData("\"sundries\": {\"percent\": 3}", "\"sundries\": {\"percent\": 3, \"amount\": 4}", "sundries: write either percent")]
    [InlineData("\"deposit\": {\"percent\": 30}", "\"deposit\": {\"percent\": 130}", "deposit.percent is 130 %; give 0 to 100 %")]
    [InlineData("\"limit\": {\"amount\": \"50.00 EUR\"}", "\"limit\": {\"amount\": \"50.00 CHF\"}", "limit.amount is in CHF")]
    [InlineData("\"limit\": {\"amount\": \"50.00 EUR\"}", "\"limit\": {\"amount\": -1}", "limit.amount is below zero")]
    [InlineData("\"limit\": {\"amount\": \"50.00 EUR\"}", "\"limit\": {\"amount\": 1.234}", "1.234 has more decimals than EUR has: 2")]
    [InlineData("\"mark_up_percent\": 10", "\"mark_up_percent\": -10", "mark_up_percent is -10 %")]
    [InlineData("\"payment\"", "\"paiment\"", "paiment is not known here; did you mean 'payment'?")]
    [InlineData("\"payment\": \"On collection.\"", "\"currency\": \"USD\"", "is there twice")]
    [InlineData("\"payment\": \"On collection.\"", "\"payment\": ", "goes wrong in line 3")]
    [InlineData("{\"workshop\"", "[{\"workshop\"", "goes wrong in line")]
    public void Terms_with_one_thing_wrong(string sound, string wrong, string says)
    {
        Assert.Contains(sound, Terms);
        var sentence = TermsJson.Read(Terms.Replace(sound, wrong)).Sentence;
        Assert.Contains(says, sentence);
        Assert.DoesNotContain('\n', sentence!);
    }

    [Theory]
    [InlineData("""{"currency": "EUR", "items": [{"item": "a"}]}""", "items[0] (“a”): write either a price for one, or the containers")]
    [InlineData("""{"currency": "EUR", "items": [{"item": "a", "price": -1}]}""", "items[0].price is -1")]
    [InlineData("""{"currency": "EUR", "items": [{"item": "a", "price": 1}, {"item": "A", "price": 2}]}""", "is in the price list twice")]
    [InlineData("""{"currency": "EUR", "items": [{"item": "a", "price": "1.00 JPY"}]}""", "items[0].price is in JPY")]
    [InlineData("""{"currency": "EUR", "items": [{"item": "a", "containers": [{"size_L": 0, "price": 1}]}]}""", "size_L is 0")]
    [InlineData("""{"currency": "EUR", "items": [{"item": "a", "containers": [{"size_L": 1, "price": 1}, {"size_L": 1, "price": 2}]}]}""", "two are of the same size")]
    [InlineData("""{"currency": "EUR", "items": [{"item": "a", "price": 1, "core_charge": -5}]}""", "core_charge is below zero")]
    [InlineData("""{"currency": "EUR", "items": [{"itm": "a", "price": 1}]}""", "itm is not known here; did you mean 'item'?")]
    [InlineData("""{"currency": "EUR", "items": {"a": 1}}""", "items is not a list")]
    [InlineData("""["a"]""", "a JSON object is wanted")]
    public void Lists_with_one_thing_wrong(string text, string says) => Assert.Contains(says, PriceListJson.Read(text).Sentence);

    [Fact]
    public void A_line_is_refused_with_its_name()
    {
        Assert.Contains("has no text", Line(" ", 1, 1).Sentence);
        Assert.Contains("“Seal”: its quantity is -1", Line("Seal", -1, 1).Sentence);
        Assert.Contains("“Seal”: a unit price of -1", Line("Seal", 1, -1).Sentence);
        Assert.Contains("“Seal”: its unit price 1.2345678 has more than 6 decimals", Line("Seal", 1, 1.2345678m).Sentence);
        Assert.Contains("“Seal”: a quantity of 1000001", Line("Seal", 1_000_001, 1).Sentence);
        Assert.Contains("“Seal”: a discount of 101 %", PriceLine.Of(Euro, HalfWay.Up, LineGroup.Parts, "Seal", 1, "", 1, [], 101).Sentence);
        Assert.Contains("more than 1000000000000000 EUR", Line("Seal", 1_000_000, 1_000_000_000_000m).Sentence);
        Assert.Equal(-60m, PriceLine.Of(Euro, HalfWay.Up, LineGroup.CoreCharges, "Core charge paid back", -1, "", 60, []).Value!.Amount.Amount);
    }

    [Theory]
    [InlineData("مضخة المياه")]
    [InlineData("משאבת מים \u200F(2)")]
    [InlineData("👩‍🔧 Pump, 水泵, Ölpumpe")]
    public void Any_script_and_sign_is_kept_as_it_is(string text)
    {
        var price = Price.Of(new PriceDraft(Euro, Rounding.Usual, [Line(text, 2, 3).Value!])).Value!;
        Assert.Equal(text, PriceJson.Read(PriceJson.Write(price).ToJsonString()).Value!.Lines.Single().Text);
    }

    [Theory]
    [InlineData("a\u202Eb")]
    [InlineData("a\u2066b")]
    [InlineData("a\tb")]
    [InlineData("a\nb")]
    [InlineData("a\u2028b")]
    [InlineData("a\u0085b")]
    public void What_reorders_or_hides_is_refused(string text) => Assert.NotNull(Line(text, 1, 1).Sentence);

    [Fact]
    public void Half_a_character_is_refused() => Assert.Contains("half a character", Line("a\ud83d", 1, 1).Sentence);

    [Fact]
    public void A_price_in_two_currencies_is_refused_by_line()
    {
        var yen = PriceLine.Of(Currency.Of("JPY").Value!, HalfWay.Up, LineGroup.Parts, "Imported seal", 1, "", 5, []).Value!;
        Assert.Equal("“Imported seal” is in JPY, and this price is in EUR: a price is in one currency.", Price.Of(new PriceDraft(Euro, Rounding.Usual, [Line("Seal", 1, 1).Value!, yen])).Sentence);
        var json = PriceJson.Write(Price.Of(new PriceDraft(Euro, Rounding.Usual, [Line("Seal", 1, 1).Value!])).Value!);
        json["lines"]![0]!["amount"] = "1.00 JPY";
        Assert.Contains("lines[0].amount is in JPY", PriceJson.Read(json.ToJsonString()).Sentence);
    }

    [Fact]
    public void A_price_that_does_not_add_up_is_refused_by_line()
    {
        var json = PriceJson.Write(Price.Of(new PriceDraft(Euro, Rounding.Usual, [Line("Seal", 2, 3).Value!, Line("Clamp", 1, 4).Value!])).Value!);
        var changed = JsonNode.Parse(json.ToJsonString())!;
        changed["lines"]![1]!["amount"] = "4.10";
        Assert.Equal("The price does not add up: line 2, “Clamp”, comes to 4.00 EUR, and it says 4.10 EUR.", PriceJson.Read(changed.ToJsonString()).Sentence);
        changed["lines"]![1]!["amount"] = "4.00";
        changed["total"] = "10.01";
        Assert.Equal("The price does not add up: the total comes to 10.00 EUR, and it says 10.01 EUR.", PriceJson.Read(changed.ToJsonString()).Sentence);
    }

    [Fact]
    public void Discounts_deposits_and_taxes_are_held_to_what_they_can_be()
    {
        var draft = new PriceDraft(Euro, Rounding.Usual, [Line("Seal", 1, 10, "vat").Value!]) { Taxes = [new Tax("vat", "VAT", 20)] };
        Assert.Equal(12m, Price.Of(draft).Value!.Total.Amount);
        Assert.Contains("takes off 10.01 EUR, and all it can come off is 10.00 EUR", Price.Of(draft with { Discount = new Discount("Off", Money.Of(10.01m, Euro)) }).Sentence);
        Assert.Contains("is not below zero", Price.Of(draft with { Discount = new Discount("Off", Money.Of(-1, Euro)) }).Sentence);
        Assert.Contains("more than the total", Price.Of(draft with { Deposit = Money.Of(12.01m, Euro) }).Sentence);
        Assert.Contains("bears the tax “vat”, which the price does not have", Price.Of(draft with { Taxes = [] }).Sentence);
        Assert.Contains("same identifier", Price.Of(draft with { Taxes = [new Tax("vat", "VAT", 20), new Tax("vat", "Another", 2)] }).Sentence);
        Assert.Contains("fewer than the job takes half of the time", Price.Of(draft with { Hours = new Hours(3, 0.9, 2) }).Sentence);
        Assert.Contains("come to more than", Price.Of(draft with { Lines = [.. Enumerable.Range(0, 3).Select(_ => Line("Gold", 1_000_000, 900_000).Value!)] }).Sentence);
    }

    [Fact]
    public void A_core_charge_is_left_alone_by_a_discount_and_paid_back_in_full()
    {
        var core = PriceLine.Of(Euro, HalfWay.Up, LineGroup.CoreCharges, "Core charge: pump", 1, "", 60, ["vat"]).Value!;
        var back = PriceLine.Of(Euro, HalfWay.Up, LineGroup.CoreCharges, "Core charge paid back: pump", -1, "", 60, ["vat"]).Value!;
        var draft = new PriceDraft(Euro, new Rounding(HalfWay.Up, TaxedPer.Line), [Line("Pump", 1, 100, "vat").Value!, core]) { Taxes = [new Tax("vat", "VAT", 20)], Discount = new Discount("All of it", Money.Of(100, Euro)) };
        Assert.Equal(72m, Price.Of(draft).Value!.Total.Amount);
        Assert.Equal(0m, Price.Of(draft with { Lines = [.. draft.Lines, back] }).Value!.Total.Amount);
    }

    [Fact]
    public void A_line_rounded_by_another_rule_and_sums_beyond_all_money_are_refused()
    {
        var even = PriceLine.Of(Euro, HalfWay.Even, LineGroup.Parts, "Half a cent", 1, "", 0.125m, []).Value!;
        Assert.Contains("“Half a cent” was rounded by another rule", Price.Of(new PriceDraft(Euro, Rounding.Usual, [even])).Sentence);
        var draft = new PriceDraft(Euro, Rounding.Usual, [Line("Seal", 1, 1).Value!]);
        Assert.Contains("A limit of", Price.Of(draft with { Limit = Portion.Fixed(Money.Of(Money.Most, Euro)) }).Sentence);
        Assert.Contains("What may happen comes to more", Price.Of(draft with { Allowance = new Allowance([new Trouble("All of it", 1, 1, Money.Of(Money.Most, Euro))], []) }).Sentence);
    }

    /// <summary>Whatever is in a file, it is read or refused with one sentence.</summary>
    [Fact]
    public void Garbled_files_never_throw()
    {
        var price = PriceJson.Write(Price.Of(new PriceDraft(Euro, Rounding.Usual, [Line("Seal", 2, 3, "vat").Value!])
        {
            Taxes = [new Tax("vat", "VAT", 20)],
            Allowance = new Allowance([new Trouble("It breaks", 0.1, 5, Money.Of(7, Euro))], ["vat"]),
            Hours = new Hours(1, 0.9, 2),
            Limit = Portion.OfPercent(10),
            Discount = new Discount("Off", Money.Of(1, Euro)),
        }).Value!).ToJsonString();
        string[] texts = [Terms, price, """{"currency": "EUR", "items": [{"item": "a", "containers": [{"size_L": 1, "price": 1.5}], "core_charge": 5}]}"""];
        string[] pieces = ["-", "0", "9e999", "1e-400", "null", "[]", "{}", "\"\\ud800\"", "\"\"", "true", ",", "99999999999999999999999999999", "\"EUR\"", "-1", "0.00000001", "\"1 USD\""];
        Gen.Select(Gen.Int[0, 2], Gen.Int[0, 10_000].Array[1, 3], Gen.Int[0, 1000].Array[3]).Sample((which, places, with) =>
        {
            var text = texts[which];
            foreach (var (place, piece) in places.Zip(with))
            {
                var at = place % text.Length;
                // Half of the time a whole value is put in the place of another, so that the JSON stays whole.
                var (from, to) = piece % 2 == 0 ? (at, Math.Min(text.Length, at + (piece % 3))) : Value(text, at);
                text = text[..from] + pieces[piece % pieces.Length] + text[to..];
            }

            _ = TermsJson.Read(text);
            _ = PriceListJson.Read(text);
            _ = PriceJson.Read(text);
        }, iter: 20_000);

        static (int, int) Value(string text, int at)
        {
            var from = text.IndexOf(": ", at, StringComparison.Ordinal) is >= 0 and var spaced ? spaced + 2 : text.IndexOf(':', at) + 1;
            var to = text.IndexOfAny([',', '}', ']'], from);
            return from <= 0 || to < 0 ? (at, at) : (from, to);
        }
    }

    private static Core.Answer<PriceLine> Line(string text, decimal quantity, decimal unitPrice, params string[] taxes) =>
        PriceLine.Of(Euro, HalfWay.Up, LineGroup.Parts, text, quantity, "", unitPrice, taxes);
}
