namespace Lastoff.Core.Pricing;

/// <summary>What the taxes of a price come to.</summary>
internal static class Taxation
{
    public static IReadOnlyList<TaxAmount> Of(PriceDraft draft)
    {
        var net = Net(draft);
        return [.. draft.Taxes.Select(tax => Of(draft, tax, net))];
    }

    private static TaxAmount Of(PriceDraft draft, Tax tax, IReadOnlyList<(PriceLine Line, Money Net)> net)
    {
        var (currency, rounding) = (draft.Currency, draft.Rounding);
        var on = net.Where(line => line.Line.Taxes.Contains(tax.Id)).Select(line => line.Net).ToList();
        var of = Money.Sum(on, currency);
        return new TaxAmount(tax, of, rounding.TaxedPer == TaxedPer.Total ? Part(of) : Money.Sum(on.Select(Part), currency));

        Money Part(Money amount) => Money.Rounded(amount.Amount * tax.Percent / 100, currency, rounding.Half);
    }

    /// <summary>Each line with what is left of it once the discount on the whole is taken off.</summary>
    /// <remarks>Lines are sorted first by all that bears on tax, so that the order they were written in never moves a cent of it.</remarks>
    private static IReadOnlyList<(PriceLine Line, Money Net)> Net(PriceDraft draft)
    {
        if (draft.Discount is not { Amount.IsZero: false } discount)
        {
            return [.. draft.Lines.Select(line => (line, line.Amount))];
        }

        List<PriceLine> sorted =
        [
            .. draft.Lines.OrderByDescending(line => line.Amount.Amount)
                .ThenBy(line => string.Join('\n', line.Taxes.Order(StringComparer.Ordinal)), StringComparer.Ordinal)
                .ThenBy(line => line.Group == LineGroup.CoreCharges),
        ];
        var shares = Split.Of(discount.Amount, [.. sorted.Select(line => line.Group == LineGroup.CoreCharges ? 0 : line.Amount.Units)]);
        return [.. sorted.Select((line, i) => (line, line.Amount - shares[i]))];
    }
}
