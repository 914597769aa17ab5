namespace Lastoff.Core.Pricing;

/// <summary>A line that somebody wrote into a price, at the price it is charged at.</summary>
/// <param name="Quantity">Below zero only for a core charge that is paid back.</param>
public sealed record HandLine(LineGroup Group, string Text, decimal Quantity, decimal UnitPrice)
{
    /// <summary>The line as it will stand in a price by these terms, or the one sentence that says what is wrong with it.</summary>
    public Answer<PriceLine> In(PriceTerms terms) =>
        PriceLine.Of(terms.Currency, terms.Rounding.Half, Group, Text, Quantity, "", UnitPrice, PriceLines.TaxesOn(terms, Group));
}

/// <summary>Something that is not charged this time. Its lines stay in the price, with none of it and the reason, so that whoever reads the price sees it.</summary>
/// <param name="Key">What is left out: <see cref="LineOrigin.Key"/> of its lines.</param>
public sealed record LeftOut(string Key, string Reason)
{
    /// <summary>What is wrong with the reason, in one sentence; null when nothing is.</summary>
    public string? Fault => string.IsNullOrWhiteSpace(Reason) ? "Write why it is left out: it stands on the price." : PlainText.Fault(Reason) is { } odd ? $"The reason {odd}." : null;
}

/// <summary>What a person puts into a price, and takes out of it, before it is offered.</summary>
public sealed record LinesByHand(IReadOnlyList<HandLine> Added, IReadOnlyList<LeftOut> LeftOut)
{
    public static LinesByHand None { get; } = new([], []);

    public bool IsNone => Added.Count == 0 && LeftOut.Count == 0;

    public bool Equals(LinesByHand? other) => other is not null && Added.SequenceEqual(other.Added) && LeftOut.SequenceEqual(other.LeftOut);

    public override int GetHashCode() => HashCode.Combine(Added.Count, LeftOut.Count, Added.FirstOrDefault(), LeftOut.FirstOrDefault());
}

/// <summary>Where a line of a price comes from, for whoever corrects the price before it is offered; it is no part of what is agreed.</summary>
/// <param name="Key">What the line is left out by: an item of the price list, or else the text of the line.</param>
/// <param name="IsListed">Whether it is an item of the price list.</param>
/// <param name="ByHand">Which of the lines written by hand it is; null for one that was worked out.</param>
public sealed record LineOrigin(string Key, bool IsListed = false, int? ByHand = null);
