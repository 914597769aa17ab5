using System.Globalization;
using Lastoff.Core.Fluids;

namespace Lastoff.Core.Pricing;

/// <summary>What is wrong with one figure or text of a price list, as the end of a sentence that begins with its name; null when nothing is.</summary>
public static class ItemFaults
{
    private const decimal MostPrice = 1_000_000_000m;

    /// <summary>The price for one, or of a container.</summary>
    public static string? OfPrice(decimal price, Currency currency) =>
        price is < 0 or > MostPrice ? $"is {Money.Plain(price)}; give 0 or more, and no more than {Money.Plain(MostPrice)}"
        : decimal.Round(price, currency.Decimals + PriceLine.UnitPriceDecimals) != price ? $"is {Money.Plain(price)}, which has more than {currency.Decimals + PriceLine.UnitPriceDecimals} decimals"
        : null;

    /// <summary>The sum held until the old part comes back.</summary>
    public static string? OfCoreCharge(decimal charge, Currency currency) =>
        charge is < 0 or > MostPrice ? $"is {Money.Plain(charge)}; give 0 or more, and no more than {Money.Plain(MostPrice)}"
        : decimal.Round(charge, currency.Decimals) != charge ? $"is {Money.Plain(charge)}, and {currency} has {currency.Decimals} decimals"
        : null;

    /// <summary>A name or a unit.</summary>
    public static string? OfText(string text) => PlainText.Fault(text);

    /// <summary>The size of a container, in litres.</summary>
    public static string? OfSize(double litres) => litres is >= Containers.LeastLitres and <= Containers.MostLitres ? null
        : string.Create(CultureInfo.InvariantCulture, $"is {litres:0.####} L; give {Containers.LeastLitres} L to {Containers.MostLitres} L");
}
