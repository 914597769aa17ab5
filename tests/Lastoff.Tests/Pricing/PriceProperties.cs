using CsCheck;
using Lastoff.Core.Pricing;

namespace Lastoff.Tests.Pricing;

/// <summary>What must always be true of a price, whatever is in it and however it is rounded.</summary>
public class PriceProperties
{
    [Fact]
    public void Lines_discount_and_taxes_add_up_to_the_total() => RandomPrices.Any.Sample(draft =>
    {
        var price = Price.Of(draft).Value!;
        var lines = draft.Lines.Sum(line => line.Amount.Amount);
        Assert.Equal(lines, price.Subtotal.Amount);
        Assert.Equal(lines, Enum.GetValues<LineGroup>().Sum(group => price.SumOf(group).Amount));
        Assert.Equal(lines - (draft.Discount?.Amount.Amount ?? 0), price.BeforeTax.Amount);
        Assert.Equal(price.BeforeTax.Amount + price.TaxAmounts.Sum(tax => tax.Amount.Amount), price.Total.Amount);
        Assert.All(draft.Lines, line => Assert.True(Math.Abs(line.Amount.Amount - (line.Quantity * line.UnitPrice * (100 - line.DiscountPercent) / 100)) <= draft.Currency.Smallest / 2));
    }, iter: 2000);

    [Fact]
    public void A_tax_lies_within_half_a_unit_of_its_percents_or_of_each_lines() => RandomPrices.Any.Sample(draft =>
    {
        foreach (var tax in Price.Of(draft).Value!.TaxAmounts)
        {
            var exact = tax.Base.Amount * tax.Tax.Percent / 100;
            var bearing = draft.Lines.Count(line => line.Taxes.Contains(tax.Tax.Id));
            var roundings = draft.Rounding.TaxedPer == TaxedPer.Total ? 1 : bearing;
            Assert.True(Math.Abs(tax.Amount.Amount - exact) <= roundings * draft.Currency.Smallest / 2, $"{tax.Amount} for {exact}");
            if (draft.Discount is null)
            {
                Assert.Equal(draft.Lines.Where(line => line.Taxes.Contains(tax.Tax.Id)).Sum(line => line.Amount.Amount), tax.Base.Amount);
            }
        }
    }, iter: 2000);

    [Fact]
    public void The_order_of_lines_changes_nothing_of_what_is_paid() => Gen.Select(RandomPrices.Any, Gen.Int[0, 1000]).Sample((draft, seed) =>
    {
        var lines = draft.Lines.ToArray();
        new Random(seed).Shuffle(lines);
        var (one, other) = (Price.Of(draft).Value!, Price.Of(draft with { Lines = lines }).Value!);
        Assert.Equal(one.Total, other.Total);
        Assert.Equal(one.TaxAmounts, other.TaxAmounts);
    }, iter: 2000);

    [Fact]
    public void Is_read_as_it_was_written() => RandomPrices.Any.Sample(draft =>
    {
        var price = Price.Of(draft).Value!;
        var text = PriceJson.Write(price).ToJsonString();
        var read = PriceJson.Read(text);
        Assert.Null(read.Sentence);
        Assert.Equal(text, PriceJson.Write(read.Value!).ToJsonString());
        Assert.Equal(price.Lines, read.Value!.Lines);
        Assert.Equal(price.Total, read.Value.Total);
    }, iter: 500);

    [Fact]
    public void One_amount_changed_anywhere_is_a_price_that_does_not_add_up() => Gen.Select(RandomPrices.Any.Where(draft => draft.Lines.Count > 0), Gen.Int[0, 1000]).Sample((draft, pick) =>
    {
        var json = PriceJson.Write(Price.Of(draft).Value!);
        var smallest = draft.Currency.Smallest;
        var places = new List<(System.Text.Json.Nodes.JsonNode Of, string Name)> { (json, "subtotal"), (json, "before_tax"), (json, "total") };
        places.AddRange(json["lines"]!.AsArray().Select(line => (line!, "amount")));
        places.AddRange(json["taxes"]!.AsArray().SelectMany(tax => new[] { (tax!, "amount"), (tax!, "base") }));
        var (node, name) = places[pick % places.Count];
        node[name] = (decimal.Parse((string)node[name]!, System.Globalization.CultureInfo.InvariantCulture) + smallest).ToString(System.Globalization.CultureInfo.InvariantCulture);
        Assert.Contains("does not add up", PriceJson.Read(json.ToJsonString()).Sentence);
    }, iter: 500);

    [Fact]
    public void Ten_thousand_lines_are_no_burden()
    {
        var euro = Currency.Of("EUR").Value!;
        List<PriceLine> lines = [.. Enumerable.Range(0, 10_000).Select(i => PriceLine.Of(euro, HalfWay.Up, (LineGroup)(i % 6), $"Part {i}", 1 + (i % 7), "", 0.01m * i, ["vat"]).Value!)];
        var draft = new PriceDraft(euro, new Rounding(HalfWay.Up, TaxedPer.Line), lines) { Taxes = [new Tax("vat", "VAT", 19)], Discount = new Discount("Fleet", Money.Of(999.99m, euro)) };
        var price = Price.Of(draft).Value!;
        Assert.Equal(lines.Sum(line => line.Amount.Amount) - 999.99m, price.BeforeTax.Amount);
        Assert.Equal(price.Total, PriceJson.Read(PriceJson.Write(price).ToJsonString()).Value!.Total);
    }
}
