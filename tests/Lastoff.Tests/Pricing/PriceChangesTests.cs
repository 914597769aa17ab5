using CsCheck;
using Lastoff.Core.Pricing;

namespace Lastoff.Tests.Pricing;

/// <summary>Changes to a price list that wait on a device until the server is reached.</summary>
public class PriceChangesTests
{
    private static readonly Currency Euro = Currency.Of("EUR").Value!;
    private static readonly string[] Names = ["pump", "Oil", "seal", "Clamp"];

    private static readonly Gen<Func<PriceChanges, PriceChanges>> Change =
        Gen.Select(Gen.Int[0, Names.Length - 1].Select(i => Names[i]), Gen.Bool, Gen.Int[0, 5], Gen.Bool).Select((name, isCapital, price, isOff) =>
            (Func<PriceChanges, PriceChanges>)(changes => isOff ? changes.TakeOff(Cased(name, isCapital)) : changes.Write(new ListedItem(Cased(name, isCapital), price, ""))));

    [Fact]
    public void Two_devices_that_change_different_items_both_hold() =>
        Gen.Select(Change.Array[0, 8], Change.Array[0, 8]).Sample((mine, theirs) =>
        {
            PriceList list = new(Euro, [new ListedItem("pump", 1, ""), new ListedItem("seal", 2, "")]);
            var (one, other) = (After(mine), After(theirs));
            var after = other.On(one.On(list));
            Assert.All(other.Written, item => Assert.Equal(item, after.Find(item.Item)));
            Assert.All(other.TakenOff, name => Assert.Null(after.Find(name)));
            var touched = other.Written.Select(item => item.Item).Concat(other.TakenOff).ToHashSet(StringComparer.OrdinalIgnoreCase);
            Assert.All(one.Written.Where(item => !touched.Contains(item.Item)), item => Assert.Equal(item, after.Find(item.Item)));
            Assert.All(one.TakenOff.Where(name => !touched.Contains(name)), name => Assert.Null(after.Find(name)));
            // Sent twice, because the answer was lost, nothing is another.
            Assert.Equal(after.Items, other.On(after).Items);
        }, iter: 500);

    [Fact]
    public void What_was_changed_while_it_was_sent_is_still_to_be_sent() =>
        Gen.Select(Change.Array[0, 6], Change.Array[0, 6]).Sample((before, meanwhile) =>
        {
            var list = new PriceList(Euro, [new ListedItem("pump", 1, "")]);
            var sent = After(before);
            var now = meanwhile.Aggregate(sent, (changes, change) => change(changes));
            Assert.Equal(
                now.On(list).Items.OrderBy(item => item.Item, StringComparer.OrdinalIgnoreCase),
                now.Without(sent).On(sent.On(list)).Items.OrderBy(item => item.Item, StringComparer.OrdinalIgnoreCase));
        }, iter: 500);

    [Fact]
    public void Are_read_as_they_were_written() => Change.Array[0, 8].Sample(changes =>
    {
        var text = PriceChangesJson.Write(After(changes)).ToJsonString();
        Assert.Equal(text, PriceChangesJson.Write(PriceChangesJson.Read(text).Value!).ToJsonString());
    }, iter: 200);

    [Fact]
    public void A_list_that_an_earlier_version_kept_waiting_is_read()
    {
        var read = PriceChangesJson.Read("""{"currency": "EUR", "items": [{"item": "seal", "price": "2.50", "core_charge": "5.00"}]}""").Value!;
        Assert.Equal((1, 2.50m, 0), (read.Written.Count, read.Written[0].Price, read.TakenOff.Count));
        Assert.Contains("taken_off is not a list", PriceChangesJson.Read("""{"currency": "EUR", "items": [], "taken_off": "seal"}""").Sentence);
    }

    [Fact]
    public void An_item_keeps_its_place_and_a_list_of_another_currency_is_left_alone()
    {
        var list = new PriceList(Euro, [new ListedItem("pump", 1, ""), new ListedItem("seal", 2, "")], invented: true);
        var changed = PriceChanges.None(Euro).Write(new ListedItem("PUMP", 3, "")).Write(new ListedItem("oil", null, "") { Containers = [new ContainerPrice(5, 40)] }).On(list);
        Assert.Equal(["PUMP", "seal", "oil"], changed.Items.Select(item => item.Item));
        Assert.True(changed.Invented);
        Assert.Empty(PriceChanges.None(Currency.Of("CHF").Value!).On(list).Items);
    }

    [Fact]
    public void Nothing_is_written_over_a_list_that_cannot_be_read_or_is_in_another_currency()
    {
        var changes = PriceChanges.None(Euro).Write(new ListedItem("pump", 3, ""));
        Assert.Equal(["pump"], PriceChangesJson.On(changes, "").Value!.Items.Select(item => item.Item));
        Assert.Equal(["seal", "pump"], PriceChangesJson.On(changes, """{"currency": "EUR", "items": [{"item": "seal", "price": "2.50"}]}""").Value!.Items.Select(item => item.Item));
        Assert.Contains("cannot be read here", PriceChangesJson.On(changes, """{"currency": "EUR", "items": [{"item": "seal", "price": "2.50", "shelf": "B"}]}""").Sentence);
        Assert.Contains("shelf is not known here", PriceChangesJson.On(changes, """{"currency": "EUR", "items": [{"item": "seal", "price": "2.50", "shelf": "B"}]}""").Sentence);
        Assert.Contains("is in CHF and its rates are in EUR", PriceChangesJson.On(changes, """{"currency": "CHF", "items": []}""").Sentence);
    }

    [Fact]
    public void A_price_typed_at_a_job_never_takes_the_place_of_an_item_in_another_unit()
    {
        PriceList list = new(Euro,
        [
            new ListedItem("Cable tie", 0.40m, "m"),
            new ListedItem("Pump oil", null, "") { Containers = [new ContainerPrice(5, 40)] },
            new ListedItem("Pump", 400, "") { CoreCharge = Money.Of(60, Euro) },
        ]);
        Assert.Contains("“Cable tie” is on the price list per m, and this job needs it by the piece", list.Priced("Cable tie", 1, "").Sentence);
        Assert.Contains("“pump oil” is on the price list in containers, and this job needs it per L", list.Priced("pump oil", 1, "L").Sentence);
        Assert.Equal(("Seal", 1m, ""), (list.Priced("Seal", 1, "").Value!.Item, list.Priced("Seal", 1, "").Value!.Price, list.Priced("Seal", 1, "").Value!.Unit));
        Assert.Equal((410m, 60m), (list.Priced("Pump", 410, "").Value!.Price, list.Priced("Pump", 410, "").Value!.CoreCharge!.Amount));
    }

    [Fact]
    public void What_a_list_says_about_itself_outlasts_a_change()
    {
        var list = PriceListJson.Read("""{"about": "Made up.\nFor trying out.", "currency": "EUR", "items": []}""").Value!;
        var after = PriceListJson.Write(PriceChanges.None(Euro).Write(new ListedItem("pump", 3, "")).On(list)).ToJsonString();
        Assert.Equal(("Made up.\nFor trying out.", 1), (PriceListJson.Read(after).Value!.About, PriceListJson.Read(after).Value!.Items.Count));
        Assert.Contains("about is not a text", PriceListJson.Read("""{"about": 1, "currency": "EUR", "items": []}""").Sentence);
    }

    [Theory]
    [InlineData(12.345678, null)]
    [InlineData(12.3456789, "is 12.3456789, which has more than 6 decimals")]
    [InlineData(-1, "is -1; give 0 or more")]
    [InlineData(1e10, "and no more than 1000000000")]
    public void A_price_says_what_is_wrong_with_it(double price, string? says) => Assert.True(Says(ItemFaults.OfPrice((decimal)price, Euro), says));

    [Theory]
    [InlineData(60.5, null)]
    [InlineData(60.555, "and EUR has 2 decimals")]
    [InlineData(-5, "is -5; give 0 or more")]
    public void A_sum_held_says_what_is_wrong_with_it(double charge, string? says) => Assert.True(Says(ItemFaults.OfCoreCharge((decimal)charge, Euro), says));

    [Theory]
    [InlineData(0.946352946, null)]
    [InlineData(0, "is 0 L; give 0.01 L to 1000 L")]
    [InlineData(1001, "is 1001 L")]
    public void A_size_says_what_is_wrong_with_it(double litres, string? says) => Assert.True(Says(ItemFaults.OfSize(litres), says));

    [Fact]
    public void A_part_of_a_sum_is_percent_or_a_fixed_sum()
    {
        Assert.Equal("7.5 %", Portion.Read(7.5m, null).Value!.ToString());
        Assert.Equal("50.00 EUR", Portion.Read(50, Euro).Value!.ToString());
        Assert.Equal("is 101 %; give 0 to 100 %", Portion.Read(101, null).Sentence);
        Assert.Equal("is -1 EUR, which is below zero", Portion.Read(-1, Euro).Sentence);
        Assert.Contains("1.234 has more decimals than EUR has: 2", Portion.Read(1.234m, Euro).Sentence);
    }

    private static PriceChanges After(IEnumerable<Func<PriceChanges, PriceChanges>> changes) => changes.Aggregate(PriceChanges.None(Euro), (had, change) => change(had));

    private static string Cased(string name, bool isCapital) => isCapital ? name.ToUpperInvariant() : name;

    private static bool Says(string? fault, string? says) => says is null ? fault is null : fault?.Contains(says, StringComparison.Ordinal) == true;
}
