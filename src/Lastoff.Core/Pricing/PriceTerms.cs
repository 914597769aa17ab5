namespace Lastoff.Core.Pricing;

/// <summary>Who a price comes from, as it stands on papers.</summary>
/// <param name="Address">Its lines, none or more.</param>
public sealed record Workshop(string Name, IReadOnlyList<string> Address);

/// <summary>What the owner of a workshop sets once, and every price goes by.</summary>
public sealed record PriceTerms(Workshop Workshop, Currency Currency, decimal HourlyRate)
{
    public const double LeastChance = 0.5;
    public const double MostChance = 0.95;

    /// <summary>Said wherever a limit is set or used.</summary>
    public const string LimitCaution = "How far a bill may lie above what was agreed is for local law to say; where it is stricter than these terms, it decides.";

    /// <summary>How often the hours quoted are to be enough: 0.5 is as often as not.</summary>
    public double Chance { get; init; } = 0.9;
    public IReadOnlyList<Tax> Taxes { get; init; } = [];
    public Rounding Rounding { get; init; } = Rounding.Usual;
    /// <summary>What the workshop adds to the prices of its list, in percent of them.</summary>
    public decimal MarkUpPercent { get; init; }
    /// <summary>A price of the list as it is charged.</summary>
    public decimal MarkedUp(decimal price) => MarkUpPercent == 0 ? price : Rounding.Half.Round(price * (1 + (MarkUpPercent / 100)), Currency.Decimals);

    /// <summary>Percent of the labour, or a fixed sum for each job; null for none.</summary>
    public Portion? Sundries { get; init; }
    /// <summary>How far a later price may lie above the one agreed before the work waits for another yes. Null: not at all.</summary>
    public Portion? Limit { get; init; }
    public Portion? Deposit { get; init; }
    /// <summary>How and when it is paid, in the workshop's words; may be empty.</summary>
    public string Payment { get; init; } = "";
    /// <summary>Made up, which every paper then says.</summary>
    public bool Invented { get; init; }
}
