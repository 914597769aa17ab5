namespace Lastoff.Core.Pricing;

/// <summary>A part of a sum: so many percent of it, or a fixed amount.</summary>
public sealed record Portion
{
    private Portion(decimal? percent, Money? amount) => (Percent, Amount) = (percent, amount);

    /// <summary>0 to 100; null when it is an amount.</summary>
    public decimal? Percent { get; }

    /// <summary>Null when it is percent.</summary>
    public Money? Amount { get; }

    /// <exception cref="ArgumentOutOfRangeException">It is not from 0 to 100.</exception>
    public static Portion OfPercent(decimal percent) => percent is >= 0 and <= 100
        ? new Portion(percent, null)
        : throw new ArgumentOutOfRangeException(nameof(percent), $"{percent} % is not from 0 to 100.");

    /// <exception cref="ArgumentOutOfRangeException">It is below zero.</exception>
    public static Portion Fixed(Money amount) => !amount.IsNegative
        ? new Portion(null, amount)
        : throw new ArgumentOutOfRangeException(nameof(amount), $"{amount} is below zero.");

    /// <summary>So many percent, or a fixed amount of this currency, or the end of the sentence that says why it is none.</summary>
    /// <param name="currency">Null for percent.</param>
    public static Answer<Portion> Read(decimal number, Currency? currency) =>
        currency is null ? number is >= 0 and <= 100 ? OfPercent(number) : Answer.None<Portion>($"is {Money.Plain(number)} %; give 0 to 100 %")
        : number < 0 ? Answer.None<Portion>($"is {Money.Plain(number)} {currency}, which is below zero")
        : Money.Fault(number, currency) is { } fault ? Answer.None<Portion>($"cannot be: {fault.TrimEnd('.')}")
        : Fixed(Money.Of(number, currency));

    /// <exception cref="ArgumentException">It is an amount of another currency.</exception>
    public Money Of(Money sum, HalfWay half) => Percent is { } percent
        ? Money.Rounded(sum.Amount * percent / 100, sum.Currency, half)
        : Amount! + Money.Zero(sum.Currency);

    /// <summary>"10 %" or "50.00 EUR".</summary>
    public override string ToString() => Percent is { } percent ? $"{Money.Plain(percent)} %" : Amount!.ToString();
}
