namespace Lastoff.Core.Pricing;

/// <summary>What is still to be written on a price list: on whatever that list is by then, so that what others changed meanwhile stays.</summary>
/// <param name="Written">Items that are new or have another price; each name once.</param>
/// <param name="TakenOff">Names of items that are on the list no more; none of those written.</param>
public sealed record PriceChanges(Currency Currency, IReadOnlyList<ListedItem> Written, IReadOnlyList<string> TakenOff)
{
    public static PriceChanges None(Currency currency) => new(currency, [], []);

    public int Count => Written.Count + TakenOff.Count;

    /// <summary>The item takes the place of one of the same name.</summary>
    public PriceChanges Write(ListedItem item) => this with { Written = [.. Written.Where(other => !Same(other.Item, item.Item)), item], TakenOff = [.. TakenOff.Where(name => !Same(name, item.Item))] };

    public PriceChanges TakeOff(string item) => this with { Written = [.. Written.Where(other => !Same(other.Item, item))], TakenOff = [.. TakenOff.Where(name => !Same(name, item)), item] };

    /// <summary>What is left once some of it stands on the list; what was changed again since is left.</summary>
    public PriceChanges Without(PriceChanges sent) => this with { Written = [.. Written.Except(sent.Written)], TakenOff = [.. TakenOff.Except(sent.TakenOff)] };

    /// <summary>The list with these changes. A list in another currency says nothing in this one.</summary>
    public PriceList On(PriceList? list)
    {
        var had = list?.Currency == Currency ? list.Items : [];
        return new PriceList(
            Currency,
            [
                .. had.Where(item => !TakenOff.Any(name => Same(name, item.Item))).Select(item => Written.FirstOrDefault(other => Same(other.Item, item.Item)) ?? item),
                .. Written.Where(item => !had.Any(other => Same(other.Item, item.Item))),
            ],
            list?.Invented ?? false)
        {
            About = list?.About,
        };
    }

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
