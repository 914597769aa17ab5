using System.Globalization;
using Lastoff.Core.Maps;
using Lastoff.Core.Pricing;

namespace Lastoff.Core.Papers;

/// <summary>A price on paper: its lines by what they are for, what they add up to, and what is not in it.</summary>
internal static class PriceTables
{
    /// <summary>The lines, group by group, each with its sum where there is more than one.</summary>
    public static Table Lines(Price price) => new(
        "", [new("What", 7.4), new("How much", 2.2, true), new($"Each, {price.Currency}", 2.2, true), new($"Amount, {price.Currency}", 2.4, true)],
        [.. Enum.GetValues<LineGroup>().Where(group => price.LinesOf(group).Count > 0).SelectMany(group => Lines(price, group))]);

    private static IEnumerable<Row> Lines(Price price, LineGroup group)
    {
        var lines = price.LinesOf(group);
        var rows = lines.Select(line => LineOf(price, line, price.TaxAmounts.Count > 1)).Prepend(Row.Heading(Name(group)));
        return lines.Count == 1 ? rows : rows.Append(new Row([Said.Nothing, Said.Nothing, Said.Nothing, Amount(price.SumOf(group))], RowKind.Sum));
    }

    public static Table Sums(Price price)
    {
        List<Row> rows = [];
        if (price.Discount is { } discount)
        {
            rows.Add(new Row([new Said("All lines", Datum.Of("sum", "lines")), Amount(price.Subtotal)]));
            rows.Add(new Row([new Said(discount.Text, Datum.Of("sum", "discount")), Amount(-discount.Amount)]));
        }

        rows.Add(new Row([new Said("Before tax", Datum.Of("sum", "before_tax")), Amount(price.BeforeTax)]));
        rows.AddRange(price.TaxAmounts.Select(tax => new Row(
        [
            new Said(
                string.Create(CultureInfo.InvariantCulture, $"{tax.Tax.Name}, {tax.Tax.Percent:0.####} % of {tax.Base}"),
                Datum.Of("sum", "tax"), Datum.Of("tax", tax.Tax.Id), Datum.Of("percent", tax.Tax.Percent), Datum.Of(Key("base", price.Currency), tax.Base.Amount)),
            Amount(tax.Amount),
        ])));
        rows.Add(new Row([new Said("Total", Datum.Of("sum", "total")), Amount(price.Total)], RowKind.Sum));
        if (price.TotalInCash != price.Total)
        {
            rows.Add(new Row([new Said("Total if paid in cash", Datum.Of("sum", "total_in_cash")), Amount(price.TotalInCash)]));
        }

        return Pairs(price.Currency, rows);
    }

    /// <summary>A table of names and amounts.</summary>
    public static Table Pairs(Currency currency, IReadOnlyList<Row> rows) => new("", [new("In all", 10), new($"Amount, {currency}", 3, true)], rows);

    public static Said Amount(Money money) => new(money.With("").TrimEnd(), Datum.Of(Key("amount", money.Currency), money.Amount));

    /// <summary>The key of an amount, with its currency as its unit: “amount_EUR”.</summary>
    public static string Key(string name, Currency currency) => $"{name}_{currency.Code}";

    /// <summary>What is needed and has no price yet.</summary>
    public static IEnumerable<Said> Unpriced(Price price) => price.Unpriced.Select(thing => new Said(
        string.Create(CultureInfo.InvariantCulture, $"{thing.Text} ({thing.Quantity:0.######}{(thing.Unit.Length > 0 ? $" {thing.Unit}" : "")})"), Datum.Of("quantity", thing.Quantity), Datum.Of("unit", thing.Unit)));

    /// <summary>What may come on top, each with how often it does.</summary>
    public static Table OnTop(Price price) => new("", [new("What may happen", 7), new("How often", 2), new($"It then costs, {price.Currency}", 3, true)],
        price.Allowance is not { } allowance ? [] :
        [
            .. allowance.Troubles.Select(trouble => new Row([trouble.Text, new Said(new Risk(trouble.Chance, trouble.Minutes, trouble.Text).Odds, Datum.Of("chance", trouble.Chance)), Amount(trouble.Cost)])),
        ]);

    private static Row LineOf(Price price, PriceLine line, bool severalTaxes)
    {
        var taxes = price.TaxAmounts.Select(tax => tax.Tax).Where(tax => line.Taxes.Contains(tax.Id)).Select(tax => tax.Name).ToList();
        var text = line.Text
            + (line.DiscountPercent > 0 ? string.Create(CultureInfo.InvariantCulture, $"\nless {line.DiscountPercent:0.####} %") : "")
            + (severalTaxes ? $"\n{(taxes.Count == 0 ? "no tax" : string.Join(", ", taxes))}" : "");
        return new Row(
        [
            new Said(text, Datum.Of("line", line.Text), Datum.Of("discount_percent", line.DiscountPercent)),
            new Said(string.Create(CultureInfo.InvariantCulture, $"{line.Quantity:0.######}{(line.Unit.Length > 0 ? $" {line.Unit}" : "")}"), Datum.Of("quantity", line.Quantity), Datum.Of("unit", line.Unit)),
            new Said(Money.UnitDigits(line.UnitPrice, price.Currency), Datum.Of(Key("unit_price", price.Currency), line.UnitPrice)),
            Amount(line.Amount),
        ]);
    }

    private static string Name(LineGroup group) => group switch
    {
        LineGroup.ExtraWork => "Besides, while it is open",
        LineGroup.CoreCharges => "Core charges",
        _ => group.ToString(),
    };
}
