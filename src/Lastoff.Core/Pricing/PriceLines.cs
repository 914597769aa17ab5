using Lastoff.Core.Fluids;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Pricing;

/// <summary>Writes the lines of a price from what a plan needs.</summary>
internal sealed class PriceLines(OperationNet net, PriceTerms terms, PriceList list, LinesByHand byHand)
{
    private readonly List<PriceLine> _lines = [];
    private readonly List<Unpriced> _unpriced = [];
    private readonly HashSet<ListedItem> _bought = [];
    private Money _labour = Money.Zero(terms.Currency);

    public IReadOnlyList<PriceLine> Written => _lines;
    public IReadOnlyList<Unpriced> Unpriced => _unpriced;
    /// <summary>Whether all hours of the plan are charged, and no other labour.</summary>
    public bool IsLabourWhole { get; private set; } = true;
    /// <summary>The first line that could not be written, and why.</summary>
    public string? Fault { get; private set; }

    public static IReadOnlyList<string> TaxesOn(PriceTerms terms, LineGroup group) => [.. terms.Taxes.Where(tax => tax.On.Contains(group)).Select(tax => tax.Id)];

    /// <param name="hundredths">Hundredths of an hour.</param>
    /// <param name="part">The part renewed besides that it is for; null for the job itself.</param>
    public void Labour(LineGroup group, string text, long hundredths, string? part = null)
    {
        if (Write(group, text, hundredths / 100m, "h", terms.HourlyRate, LineOrigin.Labour(part)) is { } line)
        {
            _labour += line.Amount;
            IsLabourWhole &= line.Quantity * 100 == hundredths;
        }
    }

    /// <summary>What was written by hand, after what was worked out.</summary>
    public void ByHand()
    {
        foreach (var (line, number) in byHand.Added.Select((line, number) => (line, number)))
        {
            var written = Keep(line.In(terms), new LineOrigin(line.Text, ByHand: number));
            if (written is { Group: LineGroup.Labour })
            {
                _labour += written.Amount;
                IsLabourWhole = false;
            }
        }
    }

    /// <param name="all">All that the price has renewed: what is bought by the container is bought for all that needs it at once.</param>
    public void Things(IReadOnlyList<Renewal> renewals, Func<Renewal, LineGroup> groupOf, IReadOnlyList<Renewal> all)
    {
        var litres = all.Select(renewal => (Renewal: renewal, Item: Find(renewal))).Where(found => found.Item is { Containers.Count: > 0 } && found.Renewal.Unit == "L")
            .GroupBy(found => found.Item!, found => found.Renewal).ToDictionary(bought => bought.Key, bought => bought.Sum(renewal => renewal.Count));
        foreach (var renewal in renewals)
        {
            var item = Find(renewal);
            if (item is null)
            {
                Unknown(renewal, "");
            }
            else if (item.Containers.Count > 0)
            {
                Contained(renewal, item, groupOf(renewal), litres);
            }
            else if (item.Unit.Length > 0 && item.Unit != renewal.Unit)
            {
                Unknown(renewal, $" (the price list has it per {item.Unit})");
            }
            else
            {
                Write(groupOf(renewal), net.NameToBuy(renewal), (decimal)renewal.Count, renewal.Unit, terms.MarkedUp(item.Price!.Value), new LineOrigin(item.Item, IsListed: true));
                Core(renewal, item);
            }
        }
    }

    public void Sundries()
    {
        // Left out, they stay named even where there is no labour for them to be a part of.
        if (terms.Sundries?.Of(_labour, terms.Rounding.Half) is { } sundries && (!sundries.IsZero || Left(LineOrigin.Sundries) is not null))
        {
            var text = terms.Sundries.Percent is { } percent ? $"Sundries, {Money.Plain(percent)} % of labour" : "Sundries";
            Write(LineGroup.Sundries, text, 1, "", sundries.Amount, LineOrigin.Sundries);
        }
    }

    private void Contained(Renewal renewal, ListedItem item, LineGroup group, Dictionary<ListedItem, double> litresOf)
    {
        if (renewal.Unit != "L")
        {
            Unknown(renewal, " (the price list has it by the litre)");
        }
        else if (_bought.Add(item) && litresOf.TryGetValue(item, out var litres))
        {
            if (litres > Containers.MostLitres)
            {
                Unknown(renewal, $" (more than {Containers.MostLitres} L)");
                return;
            }

            decimal[] prices = [.. item.Containers.Select(container => terms.MarkedUp(container.Price))];
            var bought = Containers.Cheapest(litres, [.. item.Containers.Select(container => container.Size_L)], prices);
            foreach (var (i, count) in bought.Index().Where(bought => bought.Item > 0))
            {
                var size = decimal.Round((decimal)item.Containers[i].Size_L, 3);
                Write(group, $"{net.NameToBuy(renewal)}, {Money.Plain(size)} L", count, "", prices[i], new LineOrigin(item.Item, IsListed: true));
            }
        }
    }

    private void Core(Renewal renewal, ListedItem item)
    {
        if (item.CoreCharge is { IsZero: false } core)
        {
            Write(LineGroup.CoreCharges, $"Core charge: {net.NameToBuy(renewal)}, paid back when the old part comes back", (decimal)renewal.Count, "", core.Amount, new LineOrigin(item.Item, IsListed: true));
        }
    }

    /// <summary>By its identifier or its name, whichever has a price in its unit. A new part, or a new set of one-time fasteners, is also known by what it is for.</summary>
    private ListedItem? Find(Renewal renewal)
    {
        string[] names = IsNew(renewal) ? [renewal.Id, renewal.For, net.NameToBuy(renewal)] : [renewal.Id, renewal.Name];
        return names.Select(name => list.Find(name)).FirstOrDefault(item => item is not null && (item.Containers.Count > 0 ? renewal.Unit == "L" : item.Unit.Length == 0 || item.Unit == renewal.Unit))
            ?? list.Find(names);
    }

    private static bool IsNew(Renewal renewal) => renewal.Id == $"{renewal.For}.new";

    /// <summary>What somebody wrote into the price already needs no price of the list.</summary>
    private void Unknown(Renewal renewal, string why)
    {
        if (!byHand.Added.Any(line => line.Text == net.NameToBuy(renewal) && line.Quantity >= (decimal)renewal.Count))
        {
            _unpriced.Add(new Unpriced(net.NameToBuy(renewal) + why, (decimal)renewal.Count, renewal.Unit) { Item = net.NameToBuy(renewal) });
        }
    }

    /// <summary>What is left out is named with none of it and the reason.</summary>
    private PriceLine? Write(LineGroup group, string text, decimal quantity, string unit, decimal unitPrice, LineOrigin origin)
    {
        if (Left(origin) is { } left)
        {
            (text, quantity) = (left.On(text), 0);
        }

        return Keep(PriceLine.Of(terms.Currency, terms.Rounding.Half, group, text, quantity, unit, unitPrice, TaxesOn(terms, group)), origin);
    }

    private LeftOut? Left(LineOrigin origin) => byHand.LeftOut.FirstOrDefault(left => left.Key == origin.Key);

    private PriceLine? Keep(Answer<PriceLine> written, LineOrigin origin)
    {
        if (written.TryGet(out var line, out var sentence))
        {
            _lines.Add(line with { Origin = origin });
            return line;
        }

        Fault ??= sentence;
        return null;
    }
}
