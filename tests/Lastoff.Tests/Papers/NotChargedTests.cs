using Lastoff.Core.Ledger;
using Lastoff.Core.Papers;
using Lastoff.Core.Pricing;

namespace Lastoff.Tests.Papers;

/// <summary>What a person has to decide before a bill goes out.</summary>
public class NotChargedTests
{
    private static IEnumerable<string> Of(Job job) => NotCharged.Of(job).Select(uncharged => uncharged.Sentence);

    private static readonly Currency Euro = Currency.Of("EUR").Value!;

    [Fact]
    public void A_deposit_that_did_not_come_in_is_said_until_it_is_there()
    {
        var bench = PricePaperTests.Changed();
        Assert.Equal(["Deposit of 50.00 EUR asked for; nothing came in on record."], Of(bench.Job));
        bench.Do(new Paid(Money.Of(20, Euro), PaidWay.Cash, "deposit"));
        Assert.Equal(["Deposit of 50.00 EUR asked for; 20.00 EUR came in on record."], Of(bench.Job));
        bench.Do(new Paid(Money.Of(30, Euro), PaidWay.Cash, "deposit"));
        Assert.Empty(Of(bench.Job));
    }

    [Fact]
    public void Of_a_deposit_nothing_is_said_any_more_when_all_is_home_and_the_whole_rest_is_due()
    {
        var bench = Papers.Bench.Proved();
        bench.Do(Priced.Of(PricePaperTests.Price("EUR", HalfWay.Up, 3.25m)));
        bench.Do(new Agreed("The invented owner", "in person", "The price") { Price = AgreedPrice.To(bench.Job.Standing.LatestPrice!) });
        Assert.Null(NotCharged.DepositOwed(bench.Job.Standing));
        Assert.DoesNotContain(Of(bench.Job), line => line.StartsWith("Deposit", StringComparison.Ordinal));
    }

    [Fact]
    public void Trouble_after_the_price_is_said_until_a_price_is_made_that_knows_of_it()
    {
        var bench = PricePaperTests.Changed();
        bench.Do(new Paid(Money.Of(50, Euro), PaidWay.Cash, "deposit"));
        bench.Do(new JointStuck("diaphragm-screw", 30, false, "rusted"));
        bench.Do(new JointStuck("diaphragm-screw", 20, false, "less than thought"));
        Assert.Equal(["Trouble met: 20 min at “Diaphragm to its piston”; not in the price of 835.55 EUR."], Of(bench.Job));
        bench.Do(Priced.Of(PricePaperTests.Price("EUR", HalfWay.Up, 8m), "A bolt was stuck"));
        Assert.Empty(Of(bench.Job));
    }

    [Fact]
    public void Of_two_troubles_a_new_price_takes_off_the_one_that_it_charges()
    {
        var bench = PricePaperTests.Changed();
        bench.Do(new Paid(Money.Of(50, Euro), PaidWay.Cash, "deposit"));
        bench.Do(new JointStuck("diaphragm-screw", 20, false, "rusted"));
        bench.Do(new JointStuck("head-bolts", 12, false, "seized"));
        var head = NotCharged.Of(bench.Job).Single(uncharged => uncharged.Sentence.Contains(Head, StringComparison.Ordinal)).Line!;
        Assert.Equal(2, Of(bench.Job).Count());
        Offer(head);
        Assert.StartsWith("Trouble met: 20 min at “Diaphragm to its piston”", Assert.Single(Of(bench.Job)));
        // A price that charges something else altogether takes none off.
        Offer(head, new HandLine(LineGroup.Renewals, "Clip", 1, 2));
        Assert.Single(Of(bench.Job));
        // Another word for it is work by the hour all the same.
        Offer(head, new HandLine(LineGroup.Labour, "Rust everywhere", 0.3m, 82));
        Assert.Empty(Of(bench.Job));

        void Offer(params HandLine[] lines)
        {
            var terms = new PriceTerms(new Workshop("Invented Workshop", []), Euro, 82);
            var work = new HandLine(LineGroup.Labour, "The work", 3.25m, 82);
            bench.Do(Priced.Of(PriceOfPlan.ByHand(bench.Job.Net, terms, new PriceList(Euro, []), new LinesByHand([.. LabourBefore(work), .. lines], [])).Value!, "More"));
        }

        // As much work as the price before had, so that only what is named is new.
        HandLine[] LabourBefore(HandLine work) => [work with { Quantity = bench.Job.Standing.Prices[1].Price.Lines.Where(line => line.Group == LineGroup.Labour).Sum(line => line.Quantity) }];
    }

    private static string Head => Papers.Bench.Net.Joints["head-bolts"].Name;

    [Fact]
    public void Trouble_that_got_worse_after_it_was_charged_is_said_with_what_is_missing()
    {
        var bench = PricePaperTests.Changed();
        bench.Do(new Paid(Money.Of(50, Euro), PaidWay.Cash, "deposit"));
        bench.Do(new JointStuck("diaphragm-screw", 30, false, "rusted"));
        var line = NotCharged.Of(bench.Job).Single().Line! with { UnitPrice = 82 };
        var terms = new PriceTerms(new Workshop("Invented Workshop", []), Euro, 82);
        bench.Do(Priced.Of(PriceOfPlan.ByHand(bench.Job.Net, terms, new PriceList(Euro, []), new LinesByHand([line], [])).Value!, "The bolt"));
        Assert.Empty(Of(bench.Job));
        bench.Do(new JointStuck("diaphragm-screw", 45, false, "worse"));
        Assert.StartsWith("Trouble met: 15 min at “Diaphragm to its piston”", Assert.Single(Of(bench.Job)));
    }

    [Fact]
    public void Each_says_the_line_that_would_charge_it_and_is_gone_once_that_is_in_the_price()
    {
        var bench = PricePaperTests.Changed();
        bench.Do(new JointStuck("diaphragm-screw", 20, false, "rusted"));
        var line = NotCharged.Of(bench.Job)[0].Line!;
        Assert.Equal((LineGroup.Labour, "Trouble met: Diaphragm to its piston", 0.33m), (line.Group, line.Text, line.Quantity));

        var proved = Papers.Bench.Proved();
        proved.Do(Priced.Of(PricePaperTests.Price("EUR", HalfWay.Up, 3.25m)));
        proved.Do(new Agreed("The invented owner", "in person", "The price") { Price = AgreedPrice.To(proved.Job.Standing.LatestPrice!) });
        var washer = NotCharged.Of(proved.Job).Select(uncharged => uncharged.Line).Single(other => other?.Text == "Washer of the pressure hose")!;
        var terms = new PriceTerms(new Workshop("Invented Workshop", []), Euro, 82);
        var with = PriceOfPlan.ByHand(proved.Job.Net, terms, new PriceList(Euro, []), new LinesByHand([washer with { UnitPrice = 2 }], [])).Value!;
        proved.Do(Priced.Of(with, "The washer too"));
        Assert.DoesNotContain(Of(proved.Job), sentence => sentence.Contains("Washer", StringComparison.Ordinal));
    }

    [Fact]
    public void What_went_in_beside_the_price_is_said()
    {
        var bench = Papers.Bench.Proved();
        bench.Do(Priced.Of(PricePaperTests.Price("EUR", HalfWay.Up, 3.25m)));
        bench.Do(new Agreed("The invented owner", "in person", "The price") { Price = AgreedPrice.To(bench.Job.Standing.LatestPrice!) });
        bench.Do(new Paid(Money.Of(50, Euro), PaidWay.Cash, "deposit"));
        var total = bench.Job.Standing.LatestPrice!.Price.Total;
        // The diaphragm has a line, and the oil one for each of its containers.
        string[] beside = ["Washer of the pressure hose", "Valve seals of the upper head", "Worm-drive clamp 45 mm"];
        Assert.Equal(beside.Select(name => $"Went in: “{name}”; not in the price of {total}."), Of(bench.Job));
    }

    [Fact]
    public void Fluid_for_more_changes_is_asked_for_in_whole_containers_less_those_the_price_has_and_then_no_more()
    {
        var bench = Papers.Bench.Proved(changes: 1);
        Offer(PricePaperTests.Price("EUR", HalfWay.Up, 3.25m));
        // Twice 1.15 L as measured, and the price has two containers of a litre.
        var oil = NotCharged.Of(bench.Job).Single(uncharged => uncharged.Line?.Text == "Pump oil");
        Assert.StartsWith("Went in: 2.3 L of “Pump oil”; 2 L in the price of", oil.Sentence);
        var litre = bench.Job.Standing.LatestPrice!.Price.Lines.Single(line => line.Text == "Pump oil, 1 L").UnitPrice;
        Assert.Equal((LineGroup.Fluids, 1, litre), (oil.Line!.Group, oil.Line.Quantity, oil.Line.UnitPrice));
        // As it stands on record, where nobody knows any more which line was written by hand.
        var terms = new PriceTerms(new Workshop("Invented Workshop", []), Euro, 82);
        var list = new PriceList(Euro, []);
        var more = PriceOfPlan.ByHand(bench.Job.Net, terms, list, new LinesByHand([oil.Line with { Quantity = 3 }], [])).Value!;
        Offer(more);
        Assert.DoesNotContain(Of(bench.Job), sentence => sentence.Contains("Pump oil", StringComparison.Ordinal));

        void Offer(Price price)
        {
            bench.Do(Priced.Of(price, "More oil"));
            bench.Do(new Agreed("The invented owner", "in person", "The price") { Price = AgreedPrice.To(bench.Job.Standing.LatestPrice!) });
        }
    }

    [Fact]
    public void Where_no_price_is_agreed_there_is_nothing_to_decide() => Assert.Empty(Of(Papers.Bench.Opened().Job));
}
