namespace Lastoff.Core.Pricing;

/// <summary>A line that somebody wrote into a price, at the price it is charged at.</summary>
/// <param name="Quantity">Below zero only for a core charge that is paid back.</param>
public sealed record HandLine(LineGroup Group, string Text, decimal Quantity, decimal UnitPrice)
{
    /// <summary>The line as it will stand in a price by these terms, or the one sentence that says what is wrong with it.</summary>
    public Answer<PriceLine> In(PriceTerms terms) =>
        PriceLine.Of(terms.Currency, terms.Rounding.Half, Group, Text, Quantity, Group switch { LineGroup.Labour => "h", LineGroup.Fluids => "L", _ => "" }, UnitPrice, PriceLines.TaxesOn(terms, Group));
}

/// <summary>Something that is not charged this time. Its lines stay in the price, with none of it and the reason, so that whoever reads the price sees it.</summary>
/// <param name="Key">What is left out: <see cref="LineOrigin.Key"/> of its lines.</param>
public sealed record LeftOut(string Key, string Reason)
{
    /// <summary>What is wrong with the reason, in one sentence; null when nothing is.</summary>
    public string? Fault => string.IsNullOrWhiteSpace(Reason) ? "Write why it is left out: it stands on the price." : PlainText.Fault(Reason) is { } odd ? $"The reason {odd}." : null;

    /// <summary>The text of a line that it leaves out.</summary>
    public string On(string text) => $"{text}, left out: {Reason}";

    /// <summary>What is wrong with the reason, or with one of the lines that it is to stand on; null when nothing is.</summary>
    /// <param name="texts">The texts of the lines that it leaves out.</param>
    public string? FaultOn(IEnumerable<string> texts) =>
        Fault ?? texts.Select(text => PlainText.Fault(On(text))).FirstOrDefault(odd => odd is not null) switch
        {
            null => null,
            var odd => $"With this reason the line {odd}; write a shorter one.",
        };
}

/// <summary>What a person puts into a price, and takes out of it, before it is offered.</summary>
public sealed record LinesByHand(IReadOnlyList<HandLine> Added, IReadOnlyList<LeftOut> LeftOut)
{
    public static LinesByHand None { get; } = new([], []);

    public bool IsNone => Added.Count == 0 && LeftOut.Count == 0;

    /// <summary>What leaves nothing out of a price: what it was meant for is not in it, or is known by another name and charged.</summary>
    public IReadOnlyList<LeftOut> Unmatched(Price price) => [.. LeftOut.Where(left => !price.Lines.Any(line => line.Origin is { ByHand: null } origin && origin.Key == left.Key))];

    public bool Equals(LinesByHand? other) => other is not null && Added.SequenceEqual(other.Added) && LeftOut.SequenceEqual(other.LeftOut);

    public override int GetHashCode() => HashCode.Combine(Added.Count, LeftOut.Count, Added.FirstOrDefault(), LeftOut.FirstOrDefault());
}

/// <summary>Where a line of a price comes from, for whoever corrects the price before it is offered; it is no part of what is agreed.</summary>
/// <param name="Key">What the line is left out by, the same in every price of the job: an item of the price list, the labour, the sundries; of a line written by hand its text.</param>
/// <param name="IsListed">Whether it is an item of the price list.</param>
/// <param name="ByHand">Which of the lines written by hand it is; null for one that was worked out.</param>
public sealed record LineOrigin(string Key, bool IsListed = false, int? ByHand = null)
{
    private const string LabourKey = "labour";

    public static LineOrigin Sundries { get; } = new("sundries");

    /// <param name="part">The part renewed besides that it is for; null for the job itself.</param>
    public static LineOrigin Labour(string? part = null) => new(part is null ? LabourKey : $"{LabourKey}:{part}");
}
