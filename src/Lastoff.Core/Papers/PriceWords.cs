using Lastoff.Core.Ledger;
using Lastoff.Core.Pricing;

namespace Lastoff.Core.Papers;

/// <summary>Who a price is from, who said yes to which price, and what became of it: the same on the estimate and on the invoice.</summary>
internal static class PriceWords
{
    public const string NoPrice = "No price is on record for this job.";

    public static IEnumerable<Fact> Head(PaperSource source, PriceOnRecord price)
    {
        if (source.Terms is { } terms)
        {
            yield return From(terms);
        }

        foreach (var fact in CaseBlocks.Machine(source.Standing))
        {
            yield return fact;
        }

        yield return JobHead.WhatWasWrong(source.Standing);
        yield return JobHead.Cause(source.Standing);
        if (!source.Job.IsRecorded)
        {
            // Without a map no parts were named; the lines of the price say what was done.
            yield return JobHead.Goal(source.Standing);
        }

        var written = source.Job.Entries.First(entry => entry.Id == price.Entry);
        yield return new("Price of", new Said($"{PaperTime.Of(written.At)}\n{price.By}", Datum.Of("price", price.Entry.ToString()), Datum.Of("price_sha256", price.Priced.Sha256), Datum.Of("at", written.At)));
    }

    public static Fact From(PriceTerms terms) => new("From", string.Join('\n', terms.Workshop.Address.Prepend(terms.Workshop.Name)));

    /// <summary>Every yes, with the price it was given to as it was then.</summary>
    public static Table Yeses(PaperSource source) => new("", [new("When", 3.4), new("Who, and how", 3), new("To what", 5), new("Total", 2.6, true)],
    [
        .. from yes in source.Standing.Yeses
           let written = source.Job.Entries.First(entry => entry.Id == yes.Entry)
           select new Row(
           [
               new Said(PaperTime.Of(written.At), Datum.Of("at", written.At)),
               $"{yes.Agreed.Who}\n{yes.Agreed.Way}",
               $"{yes.Agreed.What}{OldParts(yes.Agreed)}{Declined(yes.Agreed)}",
               yes.Price is { } price
                   ? new Said(price.Price.Total.ToString(), Datum.Of("price", price.Entry.ToString()), Datum.Of(PriceTables.Key("total", price.Price.Currency), price.Price.Total.Amount))
                   : "no price named",
           ]),
    ]);

    /// <summary>The price that was agreed to beside another that came after it; nothing when there is none.</summary>
    public static IEnumerable<Block> Change(Standing standing)
    {
        if (standing is not { AgreedPrice.Price: { } agreed, LatestPrice: { } latest } || latest.Priced.Sha256 == agreed.Priced.Sha256)
        {
            yield break;
        }

        yield return PriceTables.Pairs(latest.Price.Currency,
        [
            new Row([new Said($"Agreed with {standing.AgreedPrice.Agreed.Who}", Datum.Of("sum", "agreed"), Datum.Of("price", agreed.Entry.ToString())), PriceTables.Amount(agreed.Price.Total)]),
            new Row([new Said("Now", Datum.Of("sum", "now"), Datum.Of("price", latest.Entry.ToString())), PriceTables.Amount(latest.Price.Total)]),
            new Row([new Said("Difference", Datum.Of("sum", "difference")), PriceTables.Amount(latest.Price.Total - agreed.Price.Total)], RowKind.Sum),
        ]);
        if (latest.Priced.Reason.Length > 0)
        {
            yield return new Paragraph($"Why: {latest.Priced.Reason}");
        }

        yield return new Bullets(
        [
            .. latest.Price.Lines.Where(line => !agreed.Price.Lines.Contains(line)).Select(line => Line("New or changed", line)),
            .. agreed.Price.Lines.Where(line => !latest.Price.Lines.Contains(line)).Select(line => Line("As agreed before", line)),
        ]);
        if (standing.OverAgreed is { } over)
        {
            yield return new Caution(string.Join(' ', over, "Nobody's yes to that is on record.", PriceTerms.LimitCaution));
        }

        foreach (var sentence in standing.BeyondAgreed)
        {
            yield return new Caution(sentence);
        }
    }

    public static IEnumerable<Block> Payment(string words)
    {
        if (words.Length > 0)
        {
            yield return new Paragraph(Said.Own(words));
        }
    }

    private static Said Line(string what, PriceLine line) => new($"{what}: {line.Text}, {line.Amount}", Datum.Of("line", line.Text), Datum.Of(PriceTables.Key("amount", line.Amount.Currency), line.Amount.Amount));

    private static string OldParts(Agreed agreed) => agreed.OldPartsBack switch
    {
        null => "",
        true => "\nThe old parts go back to the customer.",
        false => "\nThe old parts stay with the workshop.",
    };

    private static string Declined(Agreed agreed) => agreed.Declined.Count == 0 ? "" : $"\nAdvised and not wanted now: {string.Join(", ", agreed.Declined)}";
}
