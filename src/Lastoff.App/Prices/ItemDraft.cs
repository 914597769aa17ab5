using Lastoff.App.Device;
using Lastoff.App.Words;
using Lastoff.Core.Pricing;

namespace Lastoff.App.Prices;

/// <summary>A container as it is typed.</summary>
public sealed class ContainerDraft
{
    /// <summary>The size it had, and how that was shown: it stays to the last digit unless another is typed.</summary>
    public (double Size_L, string Shown)? Had { get; set; }
    public string Size { get; set; } = "";
    public string Price { get; set; } = "";
}

/// <summary>An item of the price list as it is typed, and what is wrong with it, field by field.</summary>
public sealed class ItemDraft
{
    private readonly Dictionary<string, string> _faults = [];

    public string Name { get; set; } = "";
    public bool IsContained { get; set; }
    public string Price { get; set; } = "";
    public string Unit { get; set; } = "";
    public List<ContainerDraft> Containers { get; } = [new()];
    public string Core { get; set; } = "";

    public static ItemDraft Of(ListedItem? had, Currency currency, Measures measures)
    {
        var draft = new ItemDraft();
        if (had is null)
        {
            return draft;
        }

        (draft.Name, draft.Unit, draft.IsContained) = (had.Item, had.Unit, had.Containers.Count > 0);
        draft.Price = had.Price is { } price ? Money.UnitDigits(price, currency) : "";
        draft.Core = had.CoreCharge is { IsZero: false } core ? core.Digits : "";
        if (draft.IsContained)
        {
            draft.Containers.Clear();
            draft.Containers.AddRange(had.Containers.Select(container => Of(container, currency, measures)));
        }

        return draft;
    }

    /// <summary>What is wrong with a field, in one sentence; null when nothing is.</summary>
    public string? Fault(string field) => _faults.GetValueOrDefault(field);

    /// <summary>The sizes as they read in another unit. What cannot be read stays as it was typed.</summary>
    public async Task MeasureInAsync(string unit, Measures measures)
    {
        var sizes = Containers.Select(container => Litres(container, measures)).ToList();
        await measures.ChooseAsync(Quantity.Volume, unit);
        foreach (var (container, size) in Containers.Zip(sizes).Where(one => one.Second is not null))
        {
            container.Size = Typed.LitresText(size!.Value, measures);
            container.Had = (size.Value, container.Size);
        }
    }

    /// <summary>The item; null when something is wrong, which the fields then say.</summary>
    /// <param name="isTaken">Whether another item of the list has a name.</param>
    public ListedItem? Read(Currency currency, Measures measures, Func<string, bool> isTaken)
    {
        _faults.Clear();
        var (name, unit) = (Name.Trim(), Unit.Trim());
        Say("name", name.Length == 0 ? Speech.Say("Write what it is, as the map names it.") : ItemFaults.OfText(name) is { } odd ? FaultWords.Of("The name", odd)
            : isTaken(name) ? Speech.Say($"“{name}” is on the list already; correct it there.") : null);
        Say("unit", !IsContained && ItemFaults.OfText(unit) is { } oddUnit ? FaultWords.Of("The unit", oddUnit) : null);
        var core = IsContained || Core.Trim().Length == 0 ? 0 : Amount("core", "The sum held", Core, number => ItemFaults.OfCoreCharge(number, currency));
        var price = IsContained ? null : Amount("price", "The price", Price, number => ItemFaults.OfPrice(number, currency));
        var containers = IsContained ? ReadContainers(currency, measures) : [];
        return _faults.Count > 0 ? null : new ListedItem(name, price, IsContained ? "" : unit)
        {
            Containers = containers,
            CoreCharge = core is > 0 and { } held ? Money.Rounded(held, currency, HalfWay.Up) : null,
        };
    }

    private static ContainerDraft Of(ContainerPrice container, Currency currency, Measures measures)
    {
        var shown = Typed.LitresText(container.Size_L, measures);
        return new ContainerDraft { Had = (container.Size_L, shown), Size = shown, Price = Money.UnitDigits(container.Price, currency) };
    }

    private static double? Litres(ContainerDraft container, Measures measures) => container.Had is var (size, shown) && shown == container.Size
        ? size
        : container.Size.Trim().Length == 0 ? null : Typed.Litres(container.Size, measures.Unit(Quantity.Volume));

    private List<ContainerPrice> ReadContainers(Currency currency, Measures measures)
    {
        List<ContainerPrice> read = [];
        foreach (var (i, container) in Containers.Index())
        {
            var size = Litres(container, measures);
            Say($"size-{i}", size is not { } litres ? Speech.Say("Write the size as a number, such as 5.") : ItemFaults.OfSize(litres) is { } fault ? FaultWords.Of("The size", fault)
                : read.Exists(other => other.Size_L == litres) ? Speech.Say("This size is there already; leave one of the two out.") : null);
            var price = Amount($"price-{i}", "The price", container.Price, number => ItemFaults.OfPrice(number, currency));
            read.Add(new ContainerPrice(size ?? 0, price ?? 0));
        }

        return read;
    }

    private decimal? Amount(string field, string what, string text, Func<decimal, string?> faultOf)
    {
        var isRead = PriceWords.TryRead(text, out var number);
        Say(field, !isRead ? PriceWords.AnAmount : faultOf(number) is { } fault ? FaultWords.Of(what, fault) : null);
        return isRead ? number : null;
    }

    private void Say(string field, string? fault)
    {
        if (fault is not null)
        {
            _faults[field] = fault;
        }
    }
}
