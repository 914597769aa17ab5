using CsCheck;
using Lastoff.Core.Pricing;

namespace Lastoff.Tests.Pricing;

public class MoneyTests
{
    private static readonly Currency Euro = Currency.Of("EUR").Value!;
    private static readonly Currency Yen = Currency.Of("JPY").Value!;

    [Fact]
    public void Two_currencies_are_never_added_or_compared()
    {
        var sentence = Assert.Throws<ArgumentException>(() => Money.Of(1, Euro) + Money.Of(1, Yen)).Message;
        Assert.Contains("1.00 EUR and 1 JPY are of two currencies", sentence);
        Assert.Throws<ArgumentException>(() => Money.Of(1, Euro) - Money.Of(1, Yen));
        Assert.Throws<ArgumentException>(() => Money.Of(1, Euro) > Money.Of(1, Yen));
        Assert.NotEqual(Money.Zero(Euro), Money.Zero(Yen));
    }

    [Fact]
    public void Nothing_has_no_sign_and_amounts_no_fraction_of_the_smallest_unit()
    {
        foreach (var nothing in new[] { Money.Of(-0.00m, Euro), -Money.Zero(Euro), Money.Rounded(-0.001m, Euro, HalfWay.Up), Money.Of(5, Euro) - Money.Of(5, Euro) })
        {
            Assert.Equal(("0.00", "0.00 EUR", false), (nothing.Digits, nothing.ToString(), nothing.IsNegative));
            Assert.Equal(Money.Zero(Euro), nothing);
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => Money.Of(0.001m, Euro));
        Assert.Throws<ArgumentOutOfRangeException>(() => Money.Of(0.1m, Yen));
        Assert.Throws<ArgumentOutOfRangeException>(() => Money.Of(Money.Most + 1, Euro));
        Assert.Throws<ArgumentOutOfRangeException>(() => Money.Of(-Money.Most, Euro) - Money.Of(1, Euro));
    }

    [Theory]
    [InlineData("0.125", "0.13", "0.12")]
    [InlineData("0.135", "0.14", "0.14")]
    [InlineData("-0.125", "-0.13", "-0.12")]
    [InlineData("0.12499999", "0.12", "0.12")]
    public void A_half_goes_up_or_to_the_even_one(string number, string up, string even)
    {
        var exact = decimal.Parse(number, System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal((up, even), (Money.Rounded(exact, Euro, HalfWay.Up).Digits, Money.Rounded(exact, Euro, HalfWay.Even).Digits));
    }

    [Theory]
    [InlineData(4.92, 4.90)]
    [InlineData(4.93, 4.95)]
    [InlineData(4.975, 5.00)]
    [InlineData(-4.92, -4.90)]
    public void In_cash_there_are_only_whole_coins(decimal total, decimal cash) =>
        Assert.Equal(Money.Of(cash, Euro), (Rounding.Usual with { CashStep = 0.05m }).InCash(Money.Rounded(total, Euro, HalfWay.Up)));

    [Fact]
    public void Any_split_adds_up_and_no_share_is_a_unit_off() =>
        Gen.Select(Gen.Long[-100_000_000_000, 100_000_000_000], Gen.OneOf(Gen.Long[0, 5], Gen.Long[0, 10_000_000_000_000_000]).List[1, 40]).Where(x => x.Item2.Any(w => w > 0)).Sample((units, weights) =>
        {
            var amount = Money.Of(units / 100m, Euro);
            var shares = Split.Of(amount, weights);
            Assert.Equal(amount, Money.Sum(shares, Euro));
            Assert.All(shares.Zip(weights), share => Assert.True(Math.Abs((double)share.First.Amount - ((double)amount.Amount * (double)share.Second / weights.Sum(weight => (double)weight))) < 0.0101, $"{share} of {amount}"));
            Assert.All(shares.Zip(weights).Where(share => share.Second == 0), share => Assert.True(share.First.IsZero));
        }, iter: 2000);

    [Theory]
    [InlineData(100, new[] { 1L, 1, 1 }, new[] { 34L, 33, 33 })]
    [InlineData(1, new[] { 1L, 2, 1 }, new[] { 0L, 1, 0 })]
    [InlineData(7, new[] { 0L, 3 }, new[] { 0L, 7 })]
    [InlineData(0, new[] { 5L, 3 }, new[] { 0L, 0 })]
    [InlineData(long.MaxValue, new[] { long.MaxValue, long.MaxValue }, new[] { 4611686018427387904L, 4611686018427387903 })]
    public void The_largest_fraction_gets_what_is_left_over(long units, long[] weights, long[] shares) => Assert.Equal(shares, Split.Of(units, weights));

    [Fact]
    public void Nothing_is_split_by_nothing()
    {
        Assert.Throws<ArgumentException>(() => Split.Of(5, [0, 0]));
        Assert.Throws<ArgumentException>(() => Split.Of(5, []));
        Assert.Throws<ArgumentException>(() => Split.Of(5, [2, -1]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Split.Of(-5, [2]));
    }
}
