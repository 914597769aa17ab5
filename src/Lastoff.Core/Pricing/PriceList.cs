namespace Lastoff.Core.Pricing;

/// <summary>A container a fluid is bought in.</summary>
/// <param name="Size_L">0.01 to 1000 litres.</param>
/// <param name="Price">In the list's currency.</param>
public sealed record ContainerPrice(double Size_L, decimal Price);

/// <summary>What one thing costs.</summary>
/// <param name="Item">The identifier or the name, on the map, of the renewal, or of the part that is renewed.</param>
/// <param name="Price">For one; null for a fluid that is bought by the container.</param>
/// <param name="Unit">What one is: "L", "can"; empty for pieces, or where it does not matter.</param>
public sealed record ListedItem(string Item, decimal? Price, string Unit)
{
    public IReadOnlyList<ContainerPrice> Containers { get; init; } = [];
    /// <summary>The sum held until the old part comes back; null for none.</summary>
    public Money? CoreCharge { get; init; }
}

/// <summary>What things cost, as the workshop wrote it down.</summary>
public sealed class PriceList
{
    private readonly Dictionary<string, ListedItem> _items = new(StringComparer.OrdinalIgnoreCase);

    /// <exception cref="ArgumentException">An item is there twice.</exception>
    public PriceList(Currency currency, IReadOnlyList<ListedItem> items, bool invented = false)
    {
        (Currency, Items, Invented) = (currency, items, invented);
        foreach (var item in items)
        {
            if (!_items.TryAdd(item.Item, item))
            {
                throw new ArgumentException($"“{item.Item}” is in the price list twice.", nameof(items));
            }
        }
    }

    public Currency Currency { get; }
    public IReadOnlyList<ListedItem> Items { get; }
    /// <summary>Made up, which every price made with it then says.</summary>
    public bool Invented { get; }
    /// <summary>What whoever wrote the list says about it: kept, and on no paper; null for nothing.</summary>
    public string? About { get; init; }

    /// <summary>A new item at this price; or, where one of that name is listed in another unit or by the container, the one sentence that says so: what others are charged by is not written over at one job.</summary>
    /// <param name="unit">What the job counts it in; empty for pieces.</param>
    public Answer<ListedItem> Priced(string item, decimal price, string unit) => Find(item) switch
    {
        null => new ListedItem(item, price, unit),
        { Containers.Count: > 0 } => Elsewhere(item, "in containers", unit),
        var listed when listed.Unit != unit => Elsewhere(item, listed.Unit.Length == 0 ? "by the piece" : $"per {listed.Unit}", unit),
        var listed => listed with { Price = price },
    };

    private static Answer<ListedItem> Elsewhere(string item, string how, string unit) => Answer.None<ListedItem>(
        $"“{item}” is on the price list {how}, and this job needs it {(unit.Length == 0 ? "by the piece" : $"per {unit}")}; change it on the price list if that is right for every job, or write it into this price by hand.");

    /// <summary>By the first of these identifiers and names that is listed; capitals do not matter. Null when none is.</summary>
    public ListedItem? Find(params IReadOnlyList<string> names) => names.Select(name => _items.GetValueOrDefault(name)).FirstOrDefault(item => item is not null);
}
