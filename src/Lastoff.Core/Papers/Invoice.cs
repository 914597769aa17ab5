using Lastoff.Core.Ledger;
using Lastoff.Core.Pricing;

namespace Lastoff.Core.Papers;

/// <summary>The price as it came out, beside the one that was agreed to, with its taxes, what was paid, and what is left to pay.</summary>
public static class Invoice
{
    private const string WhatItMustSay = "What an invoice has to say is for local law; a number of the workshop's own series, its tax number and the customer's address are not in the ledger and are to be added where they are asked for.";

    public static Paper Of(PaperSource source) => Billed(source.Standing) is not { } price
        ? JobHead.Paper(source, PaperKind.Invoice, "Invoice", "For the customer", new Section("", new Paragraph(PriceWords.NoPrice)))
        : JobHead.Paper(
            source, PaperKind.Invoice, "Invoice", "For the customer",
            new Section("", new Facts([.. PriceWords.Head(source, price), JobHead.WhereItStands(source.Standing)])),
            new Section("What it costs", PriceTables.Lines(price.Price)),
            new Section("", PriceTables.Sums(price.Price)),
            new Section("No price, and not in the total", new Bullets([.. PriceTables.Unpriced(price.Price)])),
            new Section("Against what was agreed", [.. PriceWords.Change(source.Standing)]),
            new Section("Agreed", PriceWords.Yeses(source)),
            new Section("Paid, and left to pay", Payments(source, price.Price)),
            new Section("", [
                // Paid is by today's words: an account may have changed since the price was made.
                .. Left(source.Standing, price.Price) is { IsZero: true } ? [] : PriceWords.Payment(source.Terms is { Payment: { Length: > 0 } today } ? today : price.Price.Payment),
                new Caution(WhatItMustSay),
            ]));

    /// <summary>The latest price, as far as it may go above the one agreed; beyond that, and where somebody said no, the one agreed is owed.</summary>
    private static PriceOnRecord? Billed(Standing standing) => standing.OverAgreed is null ? standing.LatestPrice : standing.AgreedPrice!.Price;

    /// <summary>What is left to pay, below zero where too much came in; null while there is no price.</summary>
    public static Money? LeftToPay(Standing standing) => Billed(standing) is { } billed ? Left(standing, billed.Price) : null;

    private static Money Left(Standing standing, Price price) => price.Total - Money.Sum(standing.Payments.Select(payment => payment.Amount), price.Currency);

    private static Table Payments(PaperSource source, Price price)
    {
        var left = Left(source.Standing, price);
        var inCash = price.Rounding.InCash(left);
        List<Row> rows =
        [
            new([new Said("Total", Datum.Of("sum", "total")), PriceTables.Amount(price.Total)]),
            .. source.Standing.Payments.Select(payment => new Row([new Said(NamesOf.Capital(PaidWords(payment)), Datum.Of("sum", "paid")), PriceTables.Amount(-payment.Amount)])),
            new([new Said(left.IsNegative ? "To be paid back" : "Left to pay", Datum.Of("sum", "left")), PriceTables.Amount(left.IsNegative ? -left : left)], RowKind.Sum),
        ];
        if (inCash != left)
        {
            rows.Add(new Row([new Said("If paid in cash", Datum.Of("sum", "left_in_cash")), PriceTables.Amount(inCash.IsNegative ? -inCash : inCash)]));
        }

        return PriceTables.Pairs(price.Currency, rows);
    }

    internal static string PaidWords(Paid paid) => (paid.Amount.IsNegative ? "paid back, " : "paid, ") + (paid.Way switch
    {
        PaidWay.Cash => "in cash",
        PaidWay.Card => "by card",
        _ => "by transfer",
    }) + (paid.For.Length > 0 ? $": {paid.For}" : "");
}
