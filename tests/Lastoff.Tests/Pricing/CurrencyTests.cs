using Lastoff.Core.Pricing;

namespace Lastoff.Tests.Pricing;

public class CurrencyTests
{
    public static TheoryData<string> Rows { get; } = [.. PricingData.Lines("currencies.txt")];

    [Theory]
    [MemberData(nameof(Rows))]
    public void Has_the_decimals_of_ISO_4217_or_is_refused_where_it_has_none(string row)
    {
        var (code, decimals) = (PricingData.Cells(row)[0], PricingData.Cells(row)[1]);
        var answer = Currency.Of(code);
        if (decimals == "-")
        {
            Assert.Contains("no minor unit", answer.Sentence);
            return;
        }

        Assert.Equal((code, int.Parse(decimals)), (answer.Value!.Code, answer.Value.Decimals));
        Assert.Equal(answer.Value, Currency.Of($" {code.ToLowerInvariant()} ").Value);
    }

    [Theory]
    [InlineData("")]
    [InlineData("EURO")]
    [InlineData("€")]
    [InlineData("DEM")]
    [InlineData("HRK")]
    [InlineData("ЕUR")]
    public void What_is_not_in_the_list_now_is_refused(string code) => Assert.Contains("no current currency", Currency.Of(code).Sentence);

    [Theory]
    [InlineData("EUR", 1234.5, "1 234.50 EUR", "1 234.50 €")]
    [InlineData("EUR", -1234567.05, "-1 234 567.05 EUR", "-1 234 567.05 €")]
    [InlineData("JPY", 1234, "1 234 JPY", "1 234 €")]
    [InlineData("KWD", 0.5, "0.500 KWD", "0.500 €")]
    [InlineData("CLF", 12.3456, "12.3456 CLF", "12.3456 €")]
    public void Is_written_by_plain_rules(string code, decimal amount, string withCode, string withSymbol)
    {
        var money = Money.Of(amount, Currency.Of(code).Value!);
        Assert.Equal((withCode, withSymbol), (money.ToString(), money.With("€")));
    }
}
