namespace Lastoff.Core.Pricing;

/// <summary>Something taken off the whole price, before tax; the taxes of every line but a core charge fall with it.</summary>
public sealed record Discount(string Text, Money Amount);

/// <summary>Something that is needed and has no price yet: it is named, and never taken as free.</summary>
public sealed record Unpriced(string Text, decimal Quantity, string Unit)
{
    /// <summary>What to write the price under, where the text says more.</summary>
    public string Item { get; init; } = Text;
}

/// <summary>The hours a price stands on.</summary>
/// <param name="P50">In half of the jobs it takes no longer.</param>
/// <param name="Chance">How often the hours charged are enough, 0.5 to 0.95.</param>
/// <param name="AtChance">The hours charged: no less than <paramref name="P50"/>.</param>
public sealed record Hours(decimal P50, double Chance, decimal AtChance)
{
    /// <summary>How many earlier jobs of the workshop they were learned from; zero when they are the map's, null when nobody wrote it down.</summary>
    public int? FromJobs { get; init; }

    /// <summary>“They are reckoned from the times of 3 jobs in the workshop.”; empty when that is not known.</summary>
    public string Basis => FromJobs is null ? "" : $"They are reckoned from {FromJobs switch { 0 => "the minutes of the map", 1 => "the times of one job in the workshop", _ => $"the times of {FromJobs} jobs in the workshop" }}.";
}

/// <summary>What goes into a price; <see cref="Price.Of"/> works it out.</summary>
public sealed record PriceDraft(Currency Currency, Rounding Rounding, IReadOnlyList<PriceLine> Lines)
{
    public IReadOnlyList<Tax> Taxes { get; init; } = [];
    public Discount? Discount { get; init; }
    /// <summary>Null when nothing is known to go wrong.</summary>
    public Allowance? Allowance { get; init; }
    /// <summary>Null when not all hours are charged.</summary>
    public Hours? Hours { get; init; }
    public IReadOnlyList<Unpriced> Unpriced { get; init; } = [];
    /// <summary>To be paid before the work begins; null for nothing.</summary>
    public Money? Deposit { get; init; }
    /// <summary>How far a later price may lie above this one, once agreed, before the work waits for another yes. Null: not at all.</summary>
    public Portion? Limit { get; init; }
    /// <summary>How and when it is paid, in the workshop's words; empty when nothing was said.</summary>
    public string Payment { get; init; } = "";
    /// <summary>Some of its figures are made up, which every paper then says.</summary>
    public bool Invented { get; init; }
}

/// <summary>A whole price as data: what it is for, line by line, and what it adds up to. It is made whole and never changes.</summary>
public sealed class Price
{
    private Price(PriceDraft draft, Money subtotal, Money discount, IReadOnlyList<TaxAmount> taxes)
    {
        Draft = draft;
        Subtotal = subtotal;
        TaxAmounts = taxes;
        BeforeTax = subtotal - discount;
        Total = BeforeTax + Money.Sum(taxes.Select(tax => tax.Amount), draft.Currency);
    }

    private PriceDraft Draft { get; }

    public Currency Currency => Draft.Currency;
    public Rounding Rounding => Draft.Rounding;
    /// <summary>In the order given.</summary>
    public IReadOnlyList<PriceLine> Lines => Draft.Lines;
    public Discount? Discount => Draft.Discount;
    public Allowance? Allowance => Draft.Allowance;
    public Hours? Hours => Draft.Hours;
    /// <summary>What the total does not contain because nobody knows its price yet.</summary>
    public IReadOnlyList<Unpriced> Unpriced => Draft.Unpriced;
    public Money Deposit => Draft.Deposit ?? Money.Zero(Currency);
    public Portion? Limit => Draft.Limit;
    public string Payment => Draft.Payment;
    public bool Invented => Draft.Invented;

    /// <summary>The sum of the lines.</summary>
    public Money Subtotal { get; }
    /// <summary>The lines less the discount.</summary>
    public Money BeforeTax { get; }
    /// <summary>Each tax of the price, in the order given, whether or not a line bears it.</summary>
    public IReadOnlyList<TaxAmount> TaxAmounts { get; }
    public Money Total { get; }
    /// <summary>The total if it is paid in coins and notes.</summary>
    public Money TotalInCash => Rounding.InCash(Total);

    /// <summary>The most another price may come to before the work waits for a yes to it: this total, and the limit.</summary>
    public Money Ceiling => Limit is null ? Total : Total + Limit.Of(Total, Rounding.Half);

    /// <summary>The lines of one group, and what they come to.</summary>
    public IReadOnlyList<PriceLine> LinesOf(LineGroup group) => [.. Lines.Where(line => line.Group == group)];

    public Money SumOf(LineGroup group) => Money.Sum(LinesOf(group).Select(line => line.Amount), Currency);

    /// <summary>Another price, made from what this one was made from.</summary>
    public Answer<Price> With(Func<PriceDraft, PriceDraft> change) => Of(change(Draft));

    /// <summary>The price, or the one sentence that says why there is none.</summary>
    public static Answer<Price> Of(PriceDraft draft)
    {
        if (PriceFaults.Of(draft) is { } fault)
        {
            return Answer.None<Price>(fault);
        }

        var discount = draft.Discount?.Amount ?? Money.Zero(draft.Currency);
        var subtotal = Money.Sum(draft.Lines.Select(line => line.Amount), draft.Currency);
        var price = new Price(draft, subtotal, discount, Taxation.Of(draft));
        return price.Deposit > price.Total && !price.Deposit.IsZero
            ? Answer.None<Price>($"A deposit of {price.Deposit} is more than the total of {price.Total}.")
            : price;
    }
}
