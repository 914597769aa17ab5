using System.Text.Json.Nodes;
using Lastoff.Core.Pricing;

namespace Lastoff.Core.Ledger;

/// <summary>The price a yes was given to, named by its entry and by what it says, so that no later price can take its place.</summary>
/// <param name="Entry">The entry that recorded the price.</param>
/// <param name="Sha256">What the price said: <see cref="Priced.Sha256"/>.</param>
public sealed record AgreedPrice(Guid Entry, string Sha256, Money Total)
{
    public static AgreedPrice To(PriceOnRecord price) => new(price.Entry, price.Priced.Sha256, price.Price.Total);

    /// <summary>What a yes is to where another was given before: the new sum, and why; null where none was, or nothing came after it. In English, as all that is kept.</summary>
    public static string? Instead(Standing standing) => standing is { AgreedPrice.Price: { } agreed, LatestPrice: { } latest } && latest.Entry != agreed.Entry
        ? $"{latest.Price.Total} instead of {agreed.Price.Total}{(latest.Priced.Reason.Length > 0 ? $": {latest.Priced.Reason}" : "")}"
        : null;

    internal void AddTo(JsonObject data)
    {
        data["price"] = Entry.ToString();
        data["price_sha256"] = Sha256;
        data["total"] = Total.Digits;
        data["currency"] = Total.Currency.Code;
    }

    /// <summary>Null in a yes that names no price.</summary>
    /// <exception cref="FormatException">It names one in part.</exception>
    internal static AgreedPrice? Read(Entry entry)
    {
        if (ActKinds.OptionalText(entry, "price") is not { } id)
        {
            return null;
        }

        return Guid.TryParse(id, out var price) && ActKinds.OptionalHash(entry, "price_sha256") is { } hash && ActKinds.MoneyOf(entry, "total") is { } total
            ? new AgreedPrice(price, hash, total)
            : throw new FormatException("it does not say in full which price was agreed to");
    }
}

/// <summary>A yes that counts, in the order of the ledger.</summary>
/// <param name="By">Who wrote it down.</param>
/// <param name="Price">What was agreed to, whole and for good; null when the yes named no price.</param>
/// <param name="GoalParts">What the job was for at that moment; more than that is more than was agreed.</param>
public sealed record Yes(Guid Entry, string By, Agreed Agreed, PriceOnRecord? Price, IReadOnlySet<string> GoalParts, IReadOnlySet<string> GoalJoints);
