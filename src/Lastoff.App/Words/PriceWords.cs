using System.Globalization;
using Lastoff.App.Device;
using Lastoff.Core.Ledger;
using Lastoff.Core.Pricing;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Words;

/// <summary>How money is said and read on the screen.</summary>
public static class PriceWords
{
    /// <summary>What is said beside a field whose amount cannot be read.</summary>
    public static string AnAmount => Say("Write it as an amount, such as 12.50 or 1250.00.");

    public static string Of(LineGroup group) => group switch
    {
        LineGroup.Labour => Say("Labour"),
        LineGroup.Parts => Say("Parts"),
        LineGroup.Renewals => Say("Seals, fasteners and filters"),
        LineGroup.Fluids => Say("Fluids"),
        LineGroup.Sundries => Say("Sundries"),
        LineGroup.ExtraWork => Say("While it is open"),
        _ => Say("Held until the old part is back"),
    };

    public static string Of(PaidWay way) => Say(InEnglish(way));

    /// <summary>As it is exported.</summary>
    public static string InEnglish(PaidWay way) => way switch
    {
        PaidWay.Cash => "In cash",
        PaidWay.Card => "By card",
        _ => "By transfer",
    };

    /// <summary>Empty for one of something that has no unit: the amount says it all.</summary>
    /// <summary>How the address of a job says that its price is open.</summary>
    public const string SheetQuery = "sheet", Sheet = "price";

    public static string Quantity(PriceLine line) => line is { Quantity: 1, Unit: "" } ? "" : $"{Plain(line.Quantity)}{(line.Unit.Length > 0 ? $" {line.Unit}" : "")} × {Money.UnitDigits(line.UnitPrice, line.Amount.Currency)}";

    /// <summary>What an item of the list costs, as it is read out, a container each: "6.20 per can"; "9.80 for 1 L" and "39.00 for 5 L".</summary>
    public static IReadOnlyList<string> Of(ListedItem item, Currency currency, Measures measures) => item.Price is { } price
        ? [$"{Money.UnitDigits(price, currency)}{(item.Unit.Length > 0 ? $" {Say("per")} {item.Unit}" : "")}"]
        : [.. item.Containers.Select(container => $"{Money.UnitDigits(container.Price, currency)} {Say("for")} {Typed.Litres(container.Size_L, measures)}")];

    public static string Plain(decimal number) => number.ToString("0.######", CultureInfo.InvariantCulture);

    public static string Hours(decimal hours) => Figures.Minutes((double)hours * 60);

    /// <summary>Reads an amount as it is typed, with a decimal comma or point; false when it is none, or may be a thousand or one alike, as 1,250.</summary>
    public static bool TryRead(string? text, out decimal value)
    {
        value = 0;
        return !Figures.IsTwoThings(text) && decimal.TryParse((text ?? "").Trim().Replace(" ", "", StringComparison.Ordinal).Replace(',', '.'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out value);
    }
}
