namespace Lastoff.Core.Pricing;

/// <summary>A tax on some of a price's lines. Several may lie on one line; none is laid on another.</summary>
/// <param name="Id">What lines name it by.</param>
/// <param name="Percent">Of the lines' amounts, 0 to 100.</param>
public sealed record Tax(string Id, string Name, decimal Percent)
{
    /// <summary>The groups of lines it is on, unless a line says otherwise.</summary>
    public IReadOnlyList<LineGroup> On { get; init; } = Enum.GetValues<LineGroup>();

    public bool Equals(Tax? other) => other is not null && Id == other.Id && Name == other.Name && Percent == other.Percent && On.SequenceEqual(other.On);

    public override int GetHashCode() => HashCode.Combine(Id, Name, Percent);
}

/// <summary>A tax as it came out.</summary>
/// <param name="Base">The sum of the amounts it is on, discounts taken off.</param>
public sealed record TaxAmount(Tax Tax, Money Base, Money Amount);
