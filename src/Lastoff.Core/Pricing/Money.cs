using System.Globalization;

namespace Lastoff.Core.Pricing;

/// <summary>An amount of one currency in whole smallest units: never half a cent, never minus nothing.</summary>
public sealed record Money : IComparable<Money>
{
    /// <summary>The most an amount may be, either way; beyond it is a slip of the pen.</summary>
    public const decimal Most = 1_000_000_000_000_000m;

    private static readonly NumberFormatInfo Spaced = new() { NumberGroupSeparator = " ", NumberDecimalSeparator = ".", NegativeSign = "-" };

    private Money(decimal amount, Currency currency)
    {
        // Adding the zero of that many decimals gives every amount its decimals; a nothing takes the zero itself, which has no sign.
        var zero = new decimal(0, 0, 0, false, (byte)currency.Decimals);
        Amount = amount == 0 ? zero : decimal.Round(amount, currency.Decimals) + zero;
        Currency = currency;
    }

    /// <summary>With as many decimals as the currency has.</summary>
    public decimal Amount { get; }

    public Currency Currency { get; }

    /// <summary>In smallest units: 1.50 EUR are 150.</summary>
    public long Units => (long)(Amount / Currency.Smallest);

    public bool IsZero => Amount == 0;

    public bool IsNegative => Amount < 0;

    public static Money Zero(Currency currency) => new(0, currency);

    /// <exception cref="ArgumentOutOfRangeException">It has more decimals than the currency, or is beyond <see cref="Most"/>.</exception>
    public static Money Of(decimal amount, Currency currency) =>
        Fault(amount, currency) is { } fault ? throw new ArgumentOutOfRangeException(nameof(amount), fault) : new Money(amount, currency);

    /// <summary>The nearest amount of money to any number.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is beyond <see cref="Most"/>.</exception>
    public static Money Rounded(decimal amount, Currency currency, HalfWay half) => Of(half.Round(amount, currency.Decimals), currency);

    /// <summary>Why a number is no amount of this currency; null when it is one.</summary>
    internal static string? Fault(decimal amount, Currency currency) =>
        Math.Abs(amount) > Most ? $"{Plain(amount)} is more than {Plain(Most)} {currency}; check the amount."
        : decimal.Round(amount, currency.Decimals) != amount ? $"{Plain(amount)} has more decimals than {currency} has: {currency.Decimals}."
        : null;

    /// <exception cref="ArgumentException">They are of two currencies.</exception>
    public static Money operator +(Money one, Money other) => Of(one.Amount + Same(one, other).Amount, one.Currency);

    /// <exception cref="ArgumentException">They are of two currencies.</exception>
    public static Money operator -(Money one, Money other) => Of(one.Amount - Same(one, other).Amount, one.Currency);

    public static Money operator -(Money one) => new(-one.Amount, one.Currency);

    /// <exception cref="ArgumentException">They are of two currencies.</exception>
    public static bool operator >(Money one, Money other) => one.CompareTo(other) > 0;

    /// <exception cref="ArgumentException">They are of two currencies.</exception>
    public static bool operator <(Money one, Money other) => one.CompareTo(other) < 0;

    /// <exception cref="ArgumentException">They are of two currencies.</exception>
    public static Money Sum(IEnumerable<Money> amounts, Currency currency) => amounts.Aggregate(Zero(currency), (sum, amount) => sum + amount);

    /// <exception cref="ArgumentException">They are of two currencies.</exception>
    public int CompareTo(Money? other) => other is null ? 1 : Amount.CompareTo(Same(this, other).Amount);

    /// <summary>As it is written in a file: digits and a point, with the currency's decimals, "1234.50".</summary>
    public string Digits => Amount.ToString($"F{Currency.Decimals}", CultureInfo.InvariantCulture);

    /// <summary>As people read it anywhere: "1 234.50 EUR".</summary>
    public override string ToString() => $"{Amount.ToString($"N{Currency.Decimals}", Spaced)} {Currency}";

    /// <summary>With a symbol of the owner's choice in the place of the code: "1 234.50 €".</summary>
    public string With(string symbol) => $"{Amount.ToString($"N{Currency.Decimals}", Spaced)} {symbol}";

    /// <summary>A price for one as it is written in a file: with the currency's decimals, and finer ones where it has them.</summary>
    public static string UnitDigits(decimal unitPrice, Currency currency) =>
        unitPrice.ToString($"0.{new string('0', currency.Decimals)}{new string('#', PriceLine.UnitPriceDecimals)}", CultureInfo.InvariantCulture);

    /// <summary>A number without needless zeros.</summary>
    internal static string Plain(decimal number) => number.ToString("0.############################", CultureInfo.InvariantCulture);

    private static Money Same(Money one, Money other) => one.Currency == other.Currency
        ? other
        : throw new ArgumentException($"{one} and {other} are of two currencies: an exchange rate is nobody's to guess, so they cannot be added or compared.");
}
