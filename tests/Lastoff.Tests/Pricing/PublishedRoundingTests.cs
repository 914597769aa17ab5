using Lastoff.Core.Maps;
using Lastoff.Core.Pricing;

namespace Lastoff.Tests.Pricing;

/// <summary>Every worked example in data/pricing/rounding.txt, each with its source. A new one is a new line there.</summary>
public class PublishedRoundingTests
{
    public static TheoryData<string> Rows { get; } = [.. PricingData.Lines("rounding.txt")];

    [Theory]
    [MemberData(nameof(Rows))]
    public void Comes_out_as_published(string row)
    {
        var cells = PricingData.Cells(row);
        Assert.Equal(11, cells.Length);
        Assert.NotEmpty(cells[10]);
        var currency = Currency.Of(cells[1]).Value!;
        var half = Words<HalfWay>.TryRead(cells[2], out var read) ? read : throw new FormatException(cells[2]);
        var per = Words<TaxedPer>.TryRead(cells[3], out var at) ? at : throw new FormatException(cells[3]);
        List<Tax> taxes = [.. PricingData.Numbers(cells[5]).Select((percent, i) => new Tax($"tax{i}", $"Tax {i}", percent))];
        List<PriceLine> lines = [.. PricingData.Numbers(cells[4]).Select(each => PriceLine.Of(currency, half, LineGroup.Parts, "A thing", 1, "", each, [.. taxes.Select(tax => tax.Id)]).Value!)];
        var step = PricingData.Numbers(cells[6]);
        var price = Price.Of(new PriceDraft(currency, new Rounding(half, per) { CashStep = step.Length > 0 ? step[0] : null }, lines) { Taxes = taxes }).Value!;
        Assert.Equal(PricingData.Numbers(cells[7]), price.TaxAmounts.Select(tax => tax.Amount.Amount));
        Assert.Equal(PricingData.Numbers(cells[8]).Single(), price.Total.Amount);
        Assert.Equal(PricingData.Numbers(cells[9]).Single(), price.TotalInCash.Amount);
    }
}
