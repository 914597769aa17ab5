namespace Lastoff.Core.Pricing;

/// <summary>Where the middle between two amounts goes.</summary>
public enum HalfWay
{
    /// <summary>Away from nothing: 0.125 to 0.13, and -0.125 to -0.13, so that what is given back is what was charged.</summary>
    Up,
    /// <summary>To the even one: 0.125 to 0.12, 0.135 to 0.14.</summary>
    Even,
}

internal static class HalfRounding
{
    public static decimal Round(this HalfWay half, decimal number, int decimals) =>
        decimal.Round(number, decimals, half == HalfWay.Up ? MidpointRounding.AwayFromZero : MidpointRounding.ToEven);
}

/// <summary>What a tax is rounded at.</summary>
public enum TaxedPer
{
    /// <summary>Each line's tax is rounded, and they are added.</summary>
    Line,
    /// <summary>The lines' taxes are added in full, and the sum is rounded.</summary>
    Total,
}

/// <summary>How a price is rounded; which way is allowed is for the tax law of the place.</summary>
public sealed record Rounding(HalfWay Half, TaxedPer TaxedPer)
{
    public static Rounding Usual { get; } = new(HalfWay.Up, TaxedPer.Total);

    /// <summary>The smallest coin in use, where it is more than the currency's smallest unit, such as 0.05; null where every amount can be paid in cash.</summary>
    public decimal? CashStep { get; init; }

    /// <summary>What is to be paid in cash: the nearest amount there are coins for. Paid by card or transfer, nothing is rounded.</summary>
    public Money InCash(Money total) => CashStep is { } step ? Money.Of(Half.Round(total.Amount / step, 0) * step, total.Currency) : total;

    /// <summary>Why a step is none; null when it is one.</summary>
    internal static string? StepFault(decimal step, Currency currency) =>
        step < currency.Smallest || step > 1000 || step % currency.Smallest != 0
            ? $"a cash step of {Money.Plain(step)} is none for {currency}: give a whole number of its smallest unit, {Money.Plain(currency.Smallest)}, and at most 1000"
            : null;
}
