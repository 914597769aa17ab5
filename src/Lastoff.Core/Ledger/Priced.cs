using System.Text.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Pricing;

namespace Lastoff.Core.Ledger;

/// <summary>A price was made for the job: the whole of it stands in the entry, and the entry's identifier names it for good.</summary>
public sealed record Priced : Act
{
    // A line of the ledger has its limit; what stands around the price is small.
    private const int MostCharacters = EntryLine.LongestLine - (8 * 1024);

    private Priced(Price price, string reason, string sha256, int length) => (Price, Reason, Sha256, Length) = (price, reason, sha256, length);

    public Price Price { get; }

    /// <summary>Why it is another than the price before; may be empty for the first.</summary>
    public string Reason { get; }

    /// <summary>The parts, by their identifiers, that are renewed besides while it is open: whoever says yes to the price says yes to them.</summary>
    public IReadOnlyList<string> Also { get; init; } = [];

    /// <summary>What a person wrote into the price and left out of it, which the next price begins with; the price itself says all of it.</summary>
    public LinesByHand ByHand { get; init; } = LinesByHand.None;

    /// <summary>SHA-256, in hex, of the price's JSON in RFC 8785 form: two prices that say the same have the same.</summary>
    public string Sha256 { get; }

    /// <summary>Whether it is too long for a line of the ledger; a price of some hundred lines is not.</summary>
    public bool IsTooLong => Length + (ByHand.IsNone ? 0 : LinesByHandJson.Write(ByHand).ToJsonString().Length) > MostCharacters;

    private int Length { get; }

    public override string Kind => ActKinds.Priced;

    public static Priced Of(Price price, string reason = "")
    {
        using var document = JsonDocument.Parse(PriceJson.Write(price).ToJsonString());
        return From(price, reason, document.RootElement);
    }

    public override JsonObject ToData()
    {
        var data = new JsonObject { ["price"] = PriceJson.Write(Price), ["reason"] = Reason };
        if (Also.Count > 0)
        {
            data["also"] = ActKinds.List(Also);
        }

        if (!ByHand.IsNone)
        {
            data["by_hand"] = LinesByHandJson.Write(ByHand);
        }

        return data;
    }

    /// <exception cref="FormatException">It is no price, or one that does not add up.</exception>
    internal static Priced Read(Entry entry)
    {
        if (!entry.Data.TryGetProperty("price", out var element))
        {
            throw new FormatException("its data has no price");
        }

        // What a later version may have written beside is part of what was agreed to, so the content is that of the entry.
        var price = PriceJson.Read(element).Or(sentence => throw new FormatException($"its price cannot be read: {sentence.TrimEnd('.')}"));
        return From(price, ActKinds.OptionalText(entry, "reason") ?? "", element) with
        {
            Also = entry.Data.TryGetProperty("also", out _) ? ActKinds.Texts(entry, "also") : [],
            ByHand = entry.Data.TryGetProperty("by_hand", out var byHand)
                ? LinesByHandJson.Read(byHand).Or(sentence => throw new FormatException($"its lines by hand cannot be read: {sentence.TrimEnd('.')}"))
                : LinesByHand.None,
        };
    }

    private static Priced From(Price price, string reason, JsonElement json)
    {
        var canonical = CanonicalJson.Write(json);
        return new Priced(price, reason, Entry.Sha256(canonical), canonical.Length);
    }
}

/// <summary>A price of the job, as it stands in the ledger.</summary>
/// <param name="Entry">The identifier of its entry, which names it.</param>
/// <param name="IsTakenBack">It does not count any more; whoever agreed to it before keeps it.</param>
public sealed record PriceOnRecord(Guid Entry, string By, Priced Priced, bool IsTakenBack)
{
    /// <summary>What the job was for when it was made, parts and joints, and the work that the map does not know: more than that is not in it.</summary>
    public IReadOnlySet<string> Goals { get; init; } = new HashSet<string>();

    public Price Price => Priced.Price;

    /// <summary>Whether all that the job is for by now is in it.</summary>
    public bool Covers(Standing standing) => standing.GoalParts.Concat(standing.GoalJoints).Concat(standing.File.Works.Select(work => work.What)).All(Goals.Contains);
}
