using System.Globalization;
using Lastoff.Core.Ledger;
using Lastoff.Core.Pricing;

namespace Lastoff.Core.Papers;

/// <summary>The latest price of the job, for a yes: what it is for, what may come on top, what is not in it, and how far it may rise.</summary>
public static class Estimate
{
    public static Paper Of(PaperSource source) => source.Standing.LatestPrice is not { } price
        ? JobHead.Paper(source, PaperKind.Estimate, "Estimate", "For the customer", new Section("", new Paragraph(PriceWords.NoPrice)))
        : JobHead.Paper(
            source, PaperKind.Estimate, "Estimate", "For the customer",
            new Section("", new Facts([.. PriceWords.Head(source, price)])),
            new Section("What it will cost", PriceTables.Lines(price.Price)),
            new Section("", PriceTables.Sums(price.Price), new Bullets([.. Besides(source.Standing, price.Price)])),
            new Section("No price yet, and not in the total", new Bullets([.. PriceTables.Unpriced(price.Price)])),
            new Section("What may come on top", [PriceTables.OnTop(price.Price), .. OnTop(price.Price)]),
            new Section("Against what was agreed", [.. PriceWords.Change(source.Standing)]),
            new Section("Agreed so far", PriceWords.Yeses(source)),
            new Section("Consent", [.. Consent(source, price)]),
            new Section("", [.. PriceWords.Payment(price.Price.Payment)]));

    private static IEnumerable<Said> Besides(Standing standing, Price price)
    {
        if (price.Hours is { } hours)
        {
            yield return new Said(
                string.Create(CultureInfo.InvariantCulture, $"{hours.AtChance:0.##} h are charged; they are enough {hours.Chance * 100:0.#} times in 100. As a rule it takes {hours.P50:0.##} h. {hours.Basis}").TrimEnd(),
                Datum.Of("hours", hours.AtChance), Datum.Of("hours_p50", hours.P50), Datum.Of("chance", hours.Chance));
        }

        if (Money.Sum(standing.Payments.Select(payment => payment.Amount), price.Currency) is { IsZero: false } paid)
        {
            yield return new Said($"Paid so far: {paid}", Datum.Of(PriceTables.Key("paid", price.Currency), paid.Amount));
        }

        // A later price asks for no deposit of its own.
        if ((standing.AgreedPrice is null ? price.Deposit : NotCharged.DepositOwed(standing)) is { IsZero: false } deposit)
        {
            yield return new Said($"To be paid before the work begins: {deposit}", Datum.Of(PriceTables.Key("deposit", price.Currency), deposit.Amount));
        }
    }

    private static IEnumerable<Block> OnTop(Price price)
    {
        if (price.Allowance is { } allowance)
        {
            yield return new Paragraph(new Said(
                $"Before tax, and charged only as far as it happens: {allowance.Expected(price.Rounding.Half)} on average, {allowance.Most} at most.",
                Datum.Of(PriceTables.Key("expected", price.Currency), allowance.Expected(price.Rounding.Half).Amount), Datum.Of(PriceTables.Key("most", price.Currency), allowance.Most.Amount)));
        }
    }

    /// <summary>Once somebody said yes to this very price, nobody is asked to sign it.</summary>
    private static IEnumerable<Block> Consent(PaperSource source, PriceOnRecord price)
    {
        var top = price.Price.Ceiling == price.Price.Total
            ? "If it comes to more, the workshop asks me first."
            : $"If it comes to more than {price.Price.Ceiling} in all, the workshop asks me first.";
        var sentence = $"The work above for {price.Price.Total}, taxes included. {top}{(price.Price.Unpriced.Count > 0 ? " What has no price yet is not in it." : "")}";
        yield return new Paragraph(new Said(sentence, Datum.Of(PriceTables.Key("total", price.Price.Currency), price.Price.Total.Amount), Datum.Of(PriceTables.Key("ceiling", price.Price.Currency), price.Price.Ceiling.Amount)));
        yield return new Caution(PriceTerms.LimitCaution);
        if (source.Standing.AgreedPrice is { Price: { } agreed } yes && agreed.Priced.Sha256 == price.Priced.Sha256)
        {
            yield return new Paragraph($"{yes.Agreed.Who} said yes to this, {yes.Agreed.Way}.");
        }
        else if (!source.IsAskedOnScreen)
        {
            yield return new Facts([new("I agree: name", Said.Nothing), new("Date", Said.Nothing), new("Signature", "\n"), new("Old parts back", "yes / no")]);
        }
    }
}
