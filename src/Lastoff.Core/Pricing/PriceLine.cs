namespace Lastoff.Core.Pricing;

/// <summary>What a line of a price is for, in the order in which a price shows them.</summary>
public enum LineGroup
{
    Labour,
    /// <summary>The parts the job is for.</summary>
    Parts,
    /// <summary>Seals, fasteners, filters and other things that must be new on the way back.</summary>
    Renewals,
    Fluids,
    /// <summary>Rags, cleaner, grease: what no one counts.</summary>
    Sundries,
    /// <summary>Labour and parts of what is done besides while the machine is open.</summary>
    ExtraWork,
    /// <summary>A sum held until the old part comes back, and its return.</summary>
    CoreCharges,
}

/// <summary>One line: so many of something at so much each.</summary>
public sealed record PriceLine
{
    /// <summary>More of one thing than this is a slip of the pen.</summary>
    public const decimal MostQuantity = 1_000_000m;

    /// <summary>How fine a price for one may be, in decimals beyond the currency's own.</summary>
    public const int UnitPriceDecimals = 4;

    private const int QuantityDecimals = 6;

    private PriceLine(LineGroup group, string text, decimal quantity, string unit, decimal unitPrice, decimal discountPercent, IReadOnlyList<string> taxes, Money amount)
    {
        (Group, Text, Quantity, Unit) = (group, text, quantity, unit);
        (UnitPrice, DiscountPercent, Taxes, Amount) = (unitPrice, discountPercent, taxes, amount);
    }

    public LineGroup Group { get; }
    public string Text { get; }
    /// <summary>Below zero only where a core charge is paid back.</summary>
    public decimal Quantity { get; }
    /// <summary>"h", "L", "can"; empty for pieces.</summary>
    public string Unit { get; }
    /// <summary>In the price's currency, with up to four decimals more than it has: a litre may cost 1.2345.</summary>
    public decimal UnitPrice { get; }
    /// <summary>Taken off this line, 0 to 100.</summary>
    public decimal DiscountPercent { get; }
    /// <summary>The taxes on it, by their identifier.</summary>
    public IReadOnlyList<string> Taxes { get; }
    /// <summary>Quantity times unit price less the discount, rounded, before tax.</summary>
    public Money Amount { get; }
    /// <summary>Null in a price that was read: there is nothing to correct in it. Two lines that say the same are the same wherever they come from.</summary>
    public LineOrigin? Origin { get; internal init; }

    /// <summary>The line with its amount, or the one sentence that says what is wrong with it.</summary>
    /// <param name="taxes">Identifiers of the price's taxes; each once.</param>
    /// <param name="discountPercent">Taken off this line, 0 to 100.</param>
    public static Answer<PriceLine> Of(
        Currency currency, HalfWay half, LineGroup group, string text, decimal quantity, string unit, decimal unitPrice, IReadOnlyList<string> taxes, decimal discountPercent = 0)
    {
        var fault = string.IsNullOrWhiteSpace(text) ? "A line of the price has no text; say what it is for."
            : PlainText.Fault(text) is { } odd ? $"The text of a line {odd}."
            : PlainText.Fault(unit) is { } oddUnit ? $"“{text}”: its unit {oddUnit}."
            : Math.Abs(quantity) > MostQuantity ? $"“{text}”: a quantity of {Money.Plain(quantity)} is more than {Money.Plain(MostQuantity)}; check it."
            : decimal.Round(quantity, QuantityDecimals) != quantity ? $"“{text}”: its quantity {Money.Plain(quantity)} has more than {QuantityDecimals} decimals."
            : quantity < 0 && group != LineGroup.CoreCharges ? $"“{text}”: its quantity is {Money.Plain(quantity)}, and only a core charge is paid back; write a discount instead."
            : unitPrice is < 0 or > Money.Most ? $"“{text}”: a unit price of {Money.Plain(unitPrice)} is none; give 0 or more, and write a discount as one."
            : decimal.Round(unitPrice, currency.Decimals + UnitPriceDecimals) != unitPrice ? $"“{text}”: its unit price {Money.Plain(unitPrice)} has more than {currency.Decimals + UnitPriceDecimals} decimals."
            : discountPercent is < 0 or > 100 ? $"“{text}”: a discount of {Money.Plain(discountPercent)} % is none; give 0 to 100."
            : taxes.Distinct().Count() != taxes.Count ? $"“{text}” names a tax twice."
            : null;
        if (fault is not null)
        {
            return Answer.None<PriceLine>(fault);
        }

        var amount = AmountOf(quantity, unitPrice, discountPercent, currency, half);
        return Money.Fault(amount, currency) is { } beyond
            ? Answer.None<PriceLine>($"“{text}”: {beyond}")
            : new PriceLine(group, text, quantity, unit, unitPrice, discountPercent, [.. taxes], Money.Of(amount, currency));
    }

    /// <summary>Whether its amount is the one that this rule of rounding gives.</summary>
    internal bool IsRounded(HalfWay half) => AmountOf(Quantity, UnitPrice, DiscountPercent, Amount.Currency, half) == Amount.Amount;

    private static decimal AmountOf(decimal quantity, decimal unitPrice, decimal discountPercent, Currency currency, HalfWay half) =>
        half.Round(quantity * unitPrice * (100 - discountPercent) / 100, currency.Decimals);

    public bool Equals(PriceLine? other) =>
        other is not null && Group == other.Group && Text == other.Text && Quantity == other.Quantity && Unit == other.Unit && UnitPrice == other.UnitPrice
        && DiscountPercent == other.DiscountPercent && Amount == other.Amount && Taxes.SequenceEqual(other.Taxes);

    public override int GetHashCode() => HashCode.Combine(Group, Text, Quantity, Unit, UnitPrice, DiscountPercent, Amount);
}
