using System.Text.Json.Nodes;
using Lastoff.Core.Maps;
using Lastoff.Core.Pricing;

namespace Lastoff.Core.Ledger;

public enum PaidWay { Cash, Card, Transfer }

/// <summary>Money that came in; below zero it went back.</summary>
/// <param name="For">What for: "deposit", "the invoice".</param>
public sealed record Paid(Money Amount, PaidWay Way, string For) : Act
{
    public override string Kind => ActKinds.Paid;

    public override JsonObject ToData() => new()
    {
        ["amount"] = Amount.Digits,
        ["currency"] = Amount.Currency.Code,
        ["way"] = Words<PaidWay>.Of(Way),
        ["for"] = For,
    };

    /// <exception cref="FormatException">It is no payment.</exception>
    internal static Paid Read(Entry entry) => new(
        ActKinds.MoneyOf(entry, "amount") ?? throw new FormatException("its data has no amount"),
        Words<PaidWay>.TryRead(ActKinds.Text(entry, "way"), out var way) ? way : throw new FormatException("its way of paying is not cash, card or transfer"),
        ActKinds.Text(entry, "for"));
}
