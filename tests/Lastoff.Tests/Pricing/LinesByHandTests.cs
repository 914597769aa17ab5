using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Pricing;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Pricing;

/// <summary>What a person writes into a price of the invented sprayer pump, and leaves out of it, before it is offered.</summary>
public class LinesByHandTests
{
    private static readonly OperationNet Net = OperationNet.From(MapReader.Read(File.ReadAllText(LastoffProgram.Demo("orchard-sprayer-pump.map.yaml")), "pump").Map!);
    private static readonly Goal Pump = Goal.Renewing("pump");
    private static readonly PlannedWork Work = new(Planner.Make(Net, Pump, Net.Nothing, PlanLimits.Quick, TestContext.Current.CancellationToken).Plan!, new LabourMinutes(60, 90));
    private static readonly Currency Euro = Currency.Of("EUR").Value!;
    private static readonly PriceTerms Terms = new(new Workshop("Invented Workshop", []), Euro, 80)
    {
        Taxes = [new Tax("vat", "VAT", 20), new Tax("green", "Levy on fluids", 5) { On = [LineGroup.Fluids] }],
        Sundries = Portion.OfPercent(5),
        Deposit = Portion.OfPercent(50),
        MarkUpPercent = 10,
    };

    private static readonly PriceList List = new(Euro,
    [
        new ListedItem("pump", 400, "") { CoreCharge = Money.Of(60, Euro) },
        new ListedItem("fresh-oil", null, "") { Containers = [new ContainerPrice(1, 9), new ContainerPrice(0.5, 6)] },
    ]);

    [Fact]
    public void A_line_by_hand_is_charged_as_it_was_written_with_its_taxes()
    {
        var before = Made(LinesByHand.None);
        var price = Made(new LinesByHand([new HandLine(LineGroup.Fluids, "Old oil taken away", 2.5m, 4)], []));
        var line = price.LinesOf(LineGroup.Fluids).Single(line => line.Text == "Old oil taken away");
        // No mark-up: what is typed is what is charged. 20 % and 5 % are on fluids.
        Assert.Equal((10m, 0, "L"), (line.Amount.Amount, line.Origin!.ByHand, line.Unit));
        Assert.Equal(["vat", "green"], line.Taxes);
        Assert.Equal(12.50m, (price.Total - before.Total).Amount);
        Assert.InRange(price.Deposit.Amount - (price.Total.Amount / 2), -0.005m, 0.005m);
    }

    [Fact]
    public void Labour_by_hand_is_labour_that_sundries_are_of()
    {
        var price = Made(new LinesByHand([new HandLine(LineGroup.Labour, "Looked for the leak", 1, 40)], []));
        Assert.Equal("h", price.LinesOf(LineGroup.Labour).Single(line => line.Text == "Looked for the leak").Unit);
        // 90 minutes at 80 are 120; 5 % of 160.
        Assert.Equal(8m, price.SumOf(LineGroup.Sundries).Amount);
        // The 90 minutes of the plan are no longer all the labour that is charged.
        Assert.Null(price.Hours);
        Assert.Equal(1.5m, Made(new LinesByHand([new HandLine(LineGroup.Parts, "Seal", 1, 40)], [])).Hours!.AtChance);
    }

    [Fact]
    public void Where_there_is_no_plan_the_price_is_what_was_written_in()
    {
        var byHand = new LinesByHand([new HandLine(LineGroup.Labour, "The agreed work", 2, 80), new HandLine(LineGroup.Parts, "Seal", 1, 40)], []);
        var price = PriceOfPlan.ByHand(Job.Recorded([]).Net, Terms, List, byHand).Value!;
        // 160 of labour, 40 of parts, 5 % sundries of the labour, and 20 % tax on all of it.
        Assert.Equal(((160m + 40 + 8) * 1.2m, 0), (price.Total.Amount, price.Unpriced.Count));
        Assert.Equal((null, null, (decimal?)price.Total.Amount / 2), (price.Hours, price.Allowance, (decimal?)price.Deposit.Amount));
        Assert.Equal([0, 1], price.Lines.Select(line => line.Origin!.ByHand).OfType<int>());
    }

    [Fact]
    public void What_the_list_has_no_price_for_is_not_asked_for_once_somebody_wrote_it_in()
    {
        var asked = Made(LinesByHand.None).Unpriced.First(unpriced => unpriced.Quantity > 1 || unpriced.Unit.Length == 0);
        Assert.DoesNotContain(Made(With(asked.Quantity)).Unpriced, unpriced => unpriced.Item == asked.Item);
        // Less of it than is needed leaves the question.
        Assert.Contains(Made(With(asked.Quantity / 2)).Unpriced, unpriced => unpriced.Item == asked.Item);

        LinesByHand With(decimal quantity) => new([new HandLine(LineGroup.Renewals, asked.Item, quantity, 2)], []);
    }

    [Fact]
    public void What_is_left_out_stays_named_with_none_of_it_and_the_reason()
    {
        var price = Made(new LinesByHand([], [new LeftOut("pump", "the owner brings it")]));
        var line = price.LinesOf(LineGroup.Parts).Single();
        Assert.Equal(("Pump, left out: the owner brings it", 0m, 440m, 0m), (line.Text, line.Quantity, line.UnitPrice, line.Amount.Amount));
        // Where there is no pump sold, no sum is held for the old one.
        Assert.Equal(0m, price.SumOf(LineGroup.CoreCharges).Amount);
        Assert.Equal(Made(LinesByHand.None).BeforeTax.Amount - 440 - 60, price.BeforeTax.Amount);
        Assert.Equal("pump", line.Origin!.Key);
    }

    [Fact]
    public void A_fluid_left_out_stays_out_whatever_containers_it_is_bought_in()
    {
        LinesByHand byHand = new([], [new LeftOut("fresh-oil", "from the owner's drum")]);
        Assert.Equal(0m, Made(byHand).SumOf(LineGroup.Fluids).Amount);
        Assert.Equal(0m, Made(byHand, PriceChanges.None(Euro).Write(new ListedItem("fresh-oil", null, "") { Containers = [new ContainerPrice(5, 1)] }).On(List)).SumOf(LineGroup.Fluids).Amount);
    }

    [Fact]
    public void Labour_left_out_leaves_no_sundries_and_no_word_of_hours_charged()
    {
        var labour = Made(LinesByHand.None).LinesOf(LineGroup.Labour).Single();
        var price = Made(new LinesByHand([], [new LeftOut(labour.Origin!.Key, "our own slip last week")]));
        Assert.Equal((0m, 0m), (price.SumOf(LineGroup.Labour).Amount, price.SumOf(LineGroup.Sundries).Amount));
        Assert.Null(price.Hours);
    }

    [Fact]
    public void What_is_left_out_stays_out_of_a_price_with_more_in_it_and_by_other_terms()
    {
        LinesByHand byHand = new([], [new LeftOut("labour", "our own slip"), new LeftOut("sundries", "a favour"), new LeftOut("labour:gauge", "a favour")]);
        Goal both = new([.. Pump.Off, "upper-diaphragm"], []);
        var price = PriceOfPlan.Of(Net, both, Work, null, Terms with { Sundries = Portion.OfPercent(3) }, List, byHand).Value!;
        Assert.Equal((0m, 0m), (price.SumOf(LineGroup.Labour).Amount, price.SumOf(LineGroup.Sundries).Amount));
        Assert.Equal(["labour:gauge"], byHand.Unmatched(price).Select(left => left.Key));
        Extra extra = new("upper-diaphragm", "Upper diaphragm", 50, 30);
        var more = PriceOfPlan.Of(Net, Pump, Work, new ExtraWork([extra], Work with { Minutes = new LabourMinutes(80, 120) }), Terms, List, new LinesByHand([], [new LeftOut("labour:upper-diaphragm", "a favour")])).Value!;
        Assert.Equal((120m, 0m), (more.SumOf(LineGroup.Labour).Amount, more.SumOf(LineGroup.ExtraWork).Amount));
    }

    [Fact]
    public void A_reason_is_refused_where_the_line_it_stands_on_would_be_too_long()
    {
        LeftOut left = new("pump", new string('r', 300));
        Assert.Null(left.FaultOn([new string('t', 180)]));
        Assert.Contains("With this reason the line is 562 characters long, and 500 is the most", left.FaultOn([new string('t', 180), new string('t', 250)]));
        Assert.Equal(new LeftOut("pump", " ").Fault, new LeftOut("pump", " ").FaultOn(["Pump"]));
    }

    [Fact]
    public void A_wrong_line_or_reason_is_refused_in_one_sentence()
    {
        Assert.Contains("has no text", new HandLine(LineGroup.Parts, " ", 1, 1).In(Terms).Sentence);
        Assert.Contains("“Seal”: its quantity is -1", new HandLine(LineGroup.Parts, "Seal", -1, 1).In(Terms).Sentence);
        Assert.Contains("“Seal”: a unit price of -1", new HandLine(LineGroup.Parts, "Seal", 1, -1).In(Terms).Sentence);
        Assert.Contains("“Seal”: its quantity is -1", PriceOfPlan.Of(Net, Pump, Work, null, Terms, List, new LinesByHand([new HandLine(LineGroup.Parts, "Seal", -1, 1)], [])).Sentence);
        Assert.Contains("Write why", new LeftOut("pump", " ").Fault);
        Assert.Contains("reading direction", new LeftOut("pump", "a\u202Eb").Fault);
        Assert.Null(new LeftOut("pump", "the owner brings it").Fault);
    }

    /// <summary>Whatever is written in and left out, the price adds up, and says the same once it was an entry of the ledger.</summary>
    [Fact]
    public void The_offered_price_adds_up_and_is_read_as_it_was_written()
    {
        var keys = Made(LinesByHand.None).Lines.Select(line => line.Origin!.Key).Distinct().ToArray();
        var added = Gen.Select(Gen.Enum<LineGroup>(), Gen.Int[0, 5000], Gen.Int[0, 999_999]).Select((group, hundredths, price) => new HandLine(group, "By hand", hundredths / 100m, price / 10_000m));
        Gen.Select(added.Array[0, 4], Gen.Shuffle(keys).SelectMany(shuffled => Gen.Int[0, keys.Length].Select(count => shuffled[..count]))).Sample((lines, left) =>
        {
            LinesByHand byHand = new(lines, [.. left.Select(key => new LeftOut(key, "not this time"))]);
            var price = Made(byHand);
            Assert.Equal(price.Lines.Sum(line => line.Amount.Amount) + price.TaxAmounts.Sum(tax => tax.Amount.Amount), price.Total.Amount);
            Assert.All(price.Lines.Where(line => left.Contains(line.Origin!.Key) && line.Origin.ByHand is null), line => Assert.True(line.Amount.IsZero));
            var entry = EntryLine.Write(Priced.Of(price) with { ByHand = byHand }, EntryId.Next(DateTimeOffset.UnixEpoch.AddYears(60), null, new byte[10]), "bench", DateTimeOffset.UnixEpoch, "A. Tester", null);
            var read = Assert.IsType<Priced>(ActKinds.Read(entry, out _));
            Assert.Equal((price.Total, Priced.Of(price).Sha256), (read.Price.Total, read.Sha256));
            Assert.Equal(byHand.Added, read.ByHand.Added);
            Assert.Equal(byHand.LeftOut, read.ByHand.LeftOut);
        }, iter: 100);
    }

    private static Price Made(LinesByHand byHand, PriceList? list = null) => PriceOfPlan.Of(Net, Pump, Work, null, Terms, list ?? List, byHand).Value!;
}
