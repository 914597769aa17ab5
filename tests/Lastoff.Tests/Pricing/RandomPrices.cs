using CsCheck;
using Lastoff.Core.Pricing;

namespace Lastoff.Tests.Pricing;

/// <summary>Drafts of prices at random: any currency, rounding rule, taxes, lines, discount.</summary>
public static class RandomPrices
{
    private static readonly string[] Codes = ["EUR", "JPY", "KWD", "CLF", "USD"];
    private static readonly string[] Words = ["Seal", "مضخة", "Öl 5W-30", "🔧 clamp", "שרשרת", "Wasserpumpe", "水泵"];

    public static Gen<PriceDraft> In(string code) => Draft(Gen.Const(Currency.Of(code).Value!));

    public static Gen<PriceDraft> Any { get; } = Draft(Gen.Int[0, Codes.Length - 1].Select(i => Currency.Of(Codes[i]).Value!));

    private static Gen<PriceDraft> Draft(Gen<Currency> currencies) =>
        Gen.Select(currencies, Gen.Enum<HalfWay>(), Gen.Enum<TaxedPer>(), Gen.Int[0, 2500].Array[0, 3], Gen.Int[0, 3]).SelectMany((currency, half, per, percents, off) =>
        {
            List<Tax> taxes = [.. percents.Select((percent, i) => new Tax($"tax-{i}", $"Tax {i}", percent / 100m))];
            return Line(currency, half, taxes).List[0, 30].Select(lines =>
            {
                var from = lines.Where(line => line.Group != LineGroup.CoreCharges).Sum(line => line.Amount.Amount);
                var discount = off == 0 ? null : new Discount("For a friend of the house", Money.Rounded(from * (off - 1) / 7, currency, half));
                return new PriceDraft(currency, new Rounding(half, per), lines) { Taxes = taxes, Discount = discount };
            });
        });

    private static Gen<PriceLine> Line(Currency currency, HalfWay half, IReadOnlyList<Tax> taxes) =>
        Gen.Select(Gen.Enum<LineGroup>(), Gen.Int[0, Words.Length - 1].Select(i => Words[i]), Gen.Int[0, 5000], Gen.Long[0, 9_999_999], Gen.Int[0, 100], Gen.Int[0, 7]).Select((group, word, hundredths, finest, percent, on) =>
            PriceLine.Of(
                currency, half, group, word, (group == LineGroup.CoreCharges && percent > 50 ? -1 : 1) * hundredths / 100m, "h", finest / 10_000m, [.. taxes.Where((_, i) => (on >> i & 1) == 1).Select(tax => tax.Id)],
                percent < 80 ? 0 : percent - 80).Value!);
}
