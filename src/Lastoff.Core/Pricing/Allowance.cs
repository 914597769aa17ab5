namespace Lastoff.Core.Pricing;

/// <summary>Something brittle or seized that may give trouble, and what it then costs, before tax.</summary>
/// <param name="Chance">How often it happens, above 0 and up to 1.</param>
/// <param name="Minutes">The typical minutes it then takes more.</param>
public sealed record Trouble(string Text, double Chance, double Minutes, Money Cost);

/// <summary>What may come on top of a price: shown apart, in no line and not in the total, and charged only as far as it happens.</summary>
/// <param name="Taxes">The taxes that lie on it, by their identifier.</param>
public sealed record Allowance(IReadOnlyList<Trouble> Troubles, IReadOnlyList<string> Taxes)
{
    /// <summary>On average over many such jobs: each cost times its chance, rounded as a whole.</summary>
    /// <exception cref="InvalidOperationException">There are no troubles.</exception>
    public Money Expected(HalfWay half) =>
        Money.Rounded(Troubles.Sum(trouble => trouble.Cost.Amount * (decimal)trouble.Chance), Troubles.First().Cost.Currency, half);

    /// <summary>If all of it happens.</summary>
    /// <exception cref="InvalidOperationException">There are no troubles.</exception>
    public Money Most => Money.Sum(Troubles.Select(trouble => trouble.Cost), Troubles.First().Cost.Currency);

    internal static string? Fault(Allowance allowance, IReadOnlySet<string> taxes) =>
        allowance.Troubles.Count == 0 ? "An allowance without anything that may happen is none; leave it out."
        : allowance.Taxes.FirstOrDefault(tax => !taxes.Contains(tax)) is { } unknown ? $"The allowance bears the tax “{unknown}”, which the price does not have."
        : allowance.Troubles.Sum(trouble => trouble.Cost.Amount) > PriceFaults.Most ? $"What may happen comes to more than {Money.Plain(PriceFaults.Most)}; check the costs."
        : allowance.Troubles.Select(Fault).FirstOrDefault(fault => fault is not null);

    private static string? Fault(Trouble trouble) =>
        string.IsNullOrWhiteSpace(trouble.Text) ? "Something that may happen has no text; say what it is."
        : PlainText.Fault(trouble.Text) is { } odd ? $"The text of something that may happen {odd}."
        : trouble.Chance is not (> 0 and <= 1) ? $"“{trouble.Text}” has a chance of {trouble.Chance}; give one above 0 and up to 1."
        : trouble.Minutes is not (>= 0 and <= 100_000) ? $"“{trouble.Text}” takes {trouble.Minutes} minutes; check them."
        : trouble.Cost.IsNegative ? $"“{trouble.Text}” costs {trouble.Cost}, which is below zero."
        : null;
}
