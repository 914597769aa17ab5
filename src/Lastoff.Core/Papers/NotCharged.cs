using System.Globalization;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Pricing;

namespace Lastoff.Core.Papers;

/// <summary>Something that is on no bill.</summary>
/// <param name="Line">The line that would charge it, its price still to be said; null where it is no matter of a line.</param>
public sealed record Uncharged(string Sentence, HandLine? Line);

/// <summary>What somebody has to decide before a bill goes out, since nothing is charged by itself: trouble that came after the price was made, what went in beside it, and a deposit that did not come in.</summary>
public static class NotCharged
{
    /// <summary>None while no price is agreed.</summary>
    public static IReadOnlyList<Uncharged> Of(Job job) => job.Standing is { AgreedPrice: not null, LatestPrice: { } price } standing ? [.. TroubleToCharge.NotIn(job, price.Price), .. WentIn(job, price.Price), .. Broke(job, price.Price), .. Deposit(standing, price.Price)] : [];

    /// <summary>New things of which more went in than the price has.</summary>
    private static IEnumerable<Uncharged> WentIn(Job job, Price price) =>
        from put in job.Standing.PutIn.OrderBy(put => put.Key, StringComparer.Ordinal)
        let renewal = job.Net.RenewalNamed(put.Key)
        where renewal is not null
        let name = job.Net.NameToBuy(renewal)
        let lines = price.Lines.Where(line => IsOf(line, name, job.IsRecorded)).ToList()
        let used = (decimal)NewThings.Used(job.Standing, renewal)
        let charged = lines.Sum(line => line.Quantity == 0 ? (decimal)renewal.Count : line.Quantity * (Size(line, name) ?? 1))
        // What a person writes into the price of a job without a plan is as much as it took.
        where used > charged && !(job.IsRecorded && lines.Count > 0)
        let unit = renewal.Unit.Length > 0 ? $" {renewal.Unit}" : ""
        select new Uncharged(
            charged > 0 ? string.Create(CultureInfo.InvariantCulture, $"Went in: {used:0.##}{unit} of “{name}”; {charged:0.##}{unit} in the price of {price.Total}.") : $"Went in: “{name}”; not in the price of {price.Total}.",
            More(renewal, name, used - charged, lines.LastOrDefault()));

    /// <summary>The line for what is missing, at the price of the one before it; of what is bought by the container whole ones.</summary>
    private static HandLine More(Renewal renewal, string name, decimal missing, PriceLine? before)
    {
        var size = before is null ? null : Size(before, name);
        return new HandLine(
            renewal.Kind == RenewalKind.Fluid ? LineGroup.Fluids : LineGroup.Renewals, name,
            size is { } whole ? Math.Ceiling(missing / whole) * whole : missing,
            before is null ? 0 : decimal.Round(before.UnitPrice / (size ?? 1), PriceLine.UnitPriceDecimals));
    }

    /// <summary>The litres of a container, as they stand behind the name: “Pump oil, 1 L”; null for what is bought otherwise.</summary>
    private static decimal? Size(PriceLine line, string name) =>
        line.Unit.Length == 0 && line.Text.StartsWith($"{name}, ", StringComparison.Ordinal) && line.Text.EndsWith(" L", StringComparison.Ordinal)
        && decimal.TryParse(line.Text.AsSpan()[(name.Length + 2)..^2], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var litres) && litres > 0 ? litres : null;

    /// <summary>What broke is wanted new, and not in yet.</summary>
    private static IEnumerable<Uncharged> Broke(Job job, Price price) =>
        from piece in job.Standing.NewPieces
        where !job.Standing.PutIn.ContainsKey(piece.Id)
        let name = job.Net.NameToBuy(piece)
        where !price.Lines.Any(line => IsOf(line, name, job.IsRecorded)) && price.Unpriced.All(unpriced => unpriced.Item != name)
        select new Uncharged($"Wanted new: “{name}”; not in the price of {price.Total}.", new HandLine(LineGroup.Renewals, name, (decimal)piece.Count, 0));

    /// <summary>Bought by the container, its size stands behind the name. A line by hand calls it what it likes, but hardly a bolt a seal: there the last word of the name is enough.</summary>
    private static bool IsOf(PriceLine line, string name, bool isByHand) => line.Text == name || line.Text.StartsWith($"{name}, ", StringComparison.Ordinal)
        || (isByHand && line.Text.Contains(name.Split(' ')[^1], StringComparison.OrdinalIgnoreCase));

    /// <summary>What of the deposit has not come in; nothing while no price is agreed, nor when all is home again: then the whole rest is due.</summary>
    public static Money? DepositOwed(Standing standing) =>
        standing is { AgreedPrice: not null, LatestPrice.Price: var price } && !IsDone(standing) && Paid(standing, price) is var paid && paid < Asked(standing) ? Asked(standing) - paid : null;

    /// <summary>With the first yes: a deposit comes before the work, and no later price asks for more of it.</summary>
    private static Money Asked(Standing standing) => standing.Yeses.First(yes => yes.Price is not null).Price!.Price.Deposit;

    internal static bool IsDone(Standing standing) => standing.Disturbed.Count > 0 && standing.Done.Count == 0;

    private static Money Paid(Standing standing, Price price) => Money.Sum(standing.Payments.Select(payment => payment.Amount), price.Currency);

    private static IEnumerable<Uncharged> Deposit(Standing standing, Price price)
    {
        var paid = Paid(standing, price);
        if (paid < Asked(standing) && !IsDone(standing))
        {
            yield return new Uncharged(paid.IsZero ? $"Deposit of {Asked(standing)} asked for; nothing came in on record." : $"Deposit of {Asked(standing)} asked for; {paid} came in on record.", null);
        }
    }
}
