namespace Lastoff.Core.Pricing;

/// <summary>What is wrong with a price before anything is added up.</summary>
internal static class PriceFaults
{
    // So that no total ever leaves what money can be.
    internal const decimal Most = Money.Most / 1000;
    private const int MostTaxes = 20;

    /// <summary>One sentence; null when nothing is wrong.</summary>
    public static string? Of(PriceDraft draft)
    {
        var currency = draft.Currency;
        var taxes = draft.Taxes.Select(tax => tax.Id).ToHashSet();
        return Foreign(draft)
            ?? (draft.Lines.Sum(line => Math.Abs(line.Amount.Amount)) > Most ? $"The lines come to more than {Money.Plain(Most)} {currency}; check the amounts." : null)
            ?? (draft.Limit?.Amount is { } limit && limit.Amount > Most ? $"A limit of {limit} is more than {Money.Plain(Most)} {currency}; check it." : null)
            ?? draft.Lines.Where(line => !line.IsRounded(draft.Rounding.Half)).Select(line => $"“{line.Text}” was rounded by another rule than the price.").FirstOrDefault()
            ?? (draft.Taxes.Count > MostTaxes ? $"A price with {draft.Taxes.Count} taxes is a mistake; {MostTaxes} is the most." : null)
            ?? (draft.Rounding.CashStep is { } step && Rounding.StepFault(step, currency) is { } odd ? $"The rounding: {odd}." : null)
            ?? (taxes.Count < draft.Taxes.Count ? "Two taxes have the same identifier; give each its own." : null)
            ?? draft.Taxes.Select(Fault).FirstOrDefault(fault => fault is not null)
            ?? draft.Lines.Where(line => line.Taxes.Any(tax => !taxes.Contains(tax)))
                .Select(line => $"“{line.Text}” bears the tax “{line.Taxes.First(tax => !taxes.Contains(tax))}”, which the price does not have.").FirstOrDefault()
            ?? Fault(draft.Discount, draft)
            ?? (draft.Deposit is { IsNegative: true } deposit ? $"A deposit of {deposit} is below zero." : null)
            ?? Fault(draft.Hours)
            ?? draft.Unpriced.Where(unpriced => string.IsNullOrWhiteSpace(unpriced.Text) || PlainText.Fault(unpriced.Text) is not null)
                .Select(unpriced => "Something without a price has no name, or one that cannot stand on a paper.").FirstOrDefault()
            ?? (draft.Allowance is { } allowance ? Allowance.Fault(allowance, taxes) : null);
    }

    internal static string? Fault(Tax tax) =>
        string.IsNullOrWhiteSpace(tax.Id) || PlainText.Fault(tax.Id) is not null ? "A tax has no identifier; give it a short one, such as vat."
        : string.IsNullOrWhiteSpace(tax.Name) ? $"The tax “{tax.Id}” has no name; write the one that stands on papers."
        : PlainText.Fault(tax.Name) is { } odd ? $"The name of the tax “{tax.Id}” {odd}."
        : tax.Percent is < 0 or > 100 ? $"The tax “{tax.Name}” is {Money.Plain(tax.Percent)} %; a tax is from 0 to 100 % of the price."
        : null;

    private static string? Foreign(PriceDraft draft)
    {
        IEnumerable<(string What, Money Amount)> amounts =
        [
            .. draft.Lines.Select(line => ($"“{line.Text}”", line.Amount)),
            .. draft.Discount is { } discount ? [($"“{discount.Text}”", discount.Amount)] : Array.Empty<(string, Money)>(),
            .. draft.Deposit is { } deposit ? [("The deposit", deposit)] : Array.Empty<(string, Money)>(),
            .. draft.Limit?.Amount is { } limit ? [("The limit", limit)] : Array.Empty<(string, Money)>(),
            .. draft.Allowance?.Troubles.Select(trouble => ($"“{trouble.Text}”", trouble.Cost)) ?? [],
        ];
        return amounts.Where(amount => amount.Amount.Currency != draft.Currency)
            .Select(amount => $"{amount.What} is in {amount.Amount.Currency}, and this price is in {draft.Currency}: a price is in one currency.").FirstOrDefault();
    }

    private static string? Fault(Discount? discount, PriceDraft draft)
    {
        if (discount is null)
        {
            return null;
        }

        var from = Money.Sum(draft.Lines.Where(line => line.Group != LineGroup.CoreCharges).Select(line => line.Amount), draft.Currency);
        return string.IsNullOrWhiteSpace(discount.Text) ? "The discount has no text; say what it is for."
            : PlainText.Fault(discount.Text) is { } odd ? $"The text of the discount {odd}."
            : discount.Amount.IsNegative ? $"“{discount.Text}” takes off {discount.Amount}; a discount is not below zero."
            : discount.Amount > from ? $"“{discount.Text}” takes off {discount.Amount}, and all it can come off is {from}."
            : null;
    }

    private static string? Fault(Hours? hours) => hours switch
    {
        null => null,
        { Chance: not (>= PriceTerms.LeastChance and <= PriceTerms.MostChance) } => $"The hours are quoted at a chance of {hours.Chance}; give one from {PriceTerms.LeastChance} to {PriceTerms.MostChance}.",
        { P50: < 0 } or { AtChance: < 0 } => "The hours are below zero.",
        _ when hours.AtChance < hours.P50 => $"The hours quoted, {Money.Plain(hours.AtChance)}, are fewer than the job takes half of the time, {Money.Plain(hours.P50)}.",
        _ => null,
    };
}
