using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Pricing;
using Lastoff.Tests.Ledger;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Pricing;

/// <summary>Prices in the ledger: what was agreed stays what was agreed, and work beyond it waits for a yes.</summary>
public class PricedJobTests
{
    private static readonly OperationNet Net = OperationNet.From(MapReader.Read(File.ReadAllText(LastoffProgram.Demo("orchard-sprayer-pump.map.yaml")), "pump").Map!);
    private static readonly Currency Euro = Currency.Of("EUR").Value!;

    [Fact]
    public void A_yes_names_the_price_and_a_later_price_changes_nothing_of_it()
    {
        var bay = Priced(100);
        Assert.Null(bay.Do(0, Yes(bay, 0) with { OldPartsBack = true, Declined = ["New hoses"] }));
        var standing = bay.On(0).Standing;
        Assert.Equal((100m, true, "New hoses"), (standing.AgreedPrice!.Price!.Price.Total.Amount, standing.Agreed!.OldPartsBack!.Value, standing.Agreed.Declined.Single()));
        Assert.Null(bay.Do(0, new Core.Ledger.Agreed("The owner", "in person", "Go on")));
        Assert.Equal("This job has a price already: write down why there is another.", bay.Do(0, Core.Ledger.Priced.Of(Of(109)))!.Sentence);
        Assert.Null(bay.Do(0, Core.Ledger.Priced.Of(Of(109), "The seal is dearer")));
        standing = bay.On(0).Standing;
        Assert.Equal((100m, 109m, 2), (standing.AgreedPrice!.Price!.Price.Total.Amount, standing.LatestPrice!.Price.Total.Amount, standing.Prices.Count));
        Assert.Null(standing.OverAgreed);
        Assert.Null(bay.Do(0, Yes(bay, 0)));
        Assert.Equal([100m, 109m], bay.On(0).Standing.Yeses.Where(yes => yes.Price is not null).Select(yes => yes.Price!.Price.Total.Amount));
        Assert.Equal(109m, bay.On(0).Standing.AgreedPrice!.Price!.Price.Total.Amount);
    }

    [Fact]
    public void A_yes_to_a_price_that_is_not_known_or_says_otherwise_is_refused_and_is_a_question_when_it_comes_in()
    {
        var bay = Priced(100);
        var named = AgreedPrice.To(bay.On(0).Standing.LatestPrice!);
        AgreedPrice[] wrong = [named with { Entry = Guid.Parse("0195e9c0-0000-7000-8000-000000000000") }, named with { Sha256 = new string('0', 64) }, named with { Total = Money.Of(90, Euro) }, named with { Total = Money.Of(100, Currency.Of("USD").Value!) }];
        foreach (var price in wrong)
        {
            var yes = new Core.Ledger.Agreed("The owner", "by telephone", "All of it") { Price = price };
            Assert.NotNull(bay.Do(0, yes));
            var forged = EntryLine.Write(yes, EntryId.Next(DateTimeOffset.UnixEpoch.AddYears(60), null, new byte[10]), "another", DateTimeOffset.UnixEpoch, "Somebody", null);
            var standing = bay.On(0).With(forged).Standing;
            Assert.Contains(standing.Questions, question => question.Entry == forged.Id);
            Assert.Null(standing.AgreedPrice);
            Assert.Null(standing.Agreed);
        }
    }

    [Fact]
    public void A_price_that_was_agreed_to_cannot_be_taken_back_alone_and_stays_agreed_when_another_device_did()
    {
        var bay = Priced(100, devices: 2);
        bay.Pass(0, 1);
        var price = bay.On(0).Standing.LatestPrice!.Entry;
        Assert.Null(bay.Do(1, new TakenBack(price)));
        Assert.Null(bay.Do(0, Yes(bay, 0)));
        var refused = bay.Do(0, new TakenBack(price))!;
        Assert.Contains("later entries stand on it", refused.Sentence);
        Assert.Contains("The owner said yes to the price of 100.00 EUR by Person 0, which is taken back.", refused.Sentence);
        bay.Pass(1, 0);
        bay.Pass(0, 1);
        foreach (var device in new[] { 0, 1 })
        {
            var standing = bay.On(device).Standing;
            Assert.Equal((100m, true), (standing.AgreedPrice!.Price!.Price.Total.Amount, standing.AgreedPrice.Price.IsTakenBack));
            Assert.Null(standing.LatestPrice);
            Assert.Contains(standing.Questions, question => question.Sentence.Contains("which is taken back"));
        }
    }

    [Fact]
    public void Work_beyond_the_agreed_sum_waits_for_a_yes_or_a_reason()
    {
        var bay = Priced(100);
        Assert.Null(bay.Do(0, Yes(bay, 0)));
        Assert.Null(bay.Do(0, Core.Ledger.Priced.Of(Of(110), "Within the limit")));
        Assert.Null(bay.Do(0, new GoalAdded(["drive-shaft"], [])));
        Assert.Null(bay.Do(0, Core.Ledger.Priced.Of(Of(110.01m), "A cent over it")));
        var over = "The latest price, 110.01 EUR, is 10.01 EUR over the 100.00 EUR that The owner agreed to, more than the 10 % that may come on top.";
        Assert.Equal(over, bay.On(0).Standing.OverAgreed);
        Assert.Contains(OpenItems.Of(bay.On(0).Standing), item => item.Kind == OpenKind.Yes && item.Sentence.StartsWith(over, StringComparison.Ordinal));

        // What was agreed goes on, and so does the way home; the part taken in since does not.
        Assert.Null(bay.Do(0, new Moved(Move.SupplySafe, "line-pressure")));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "shield-knobs")));
        Assert.Null(bay.Do(0, new Moved(Move.PartOff, "side-shield")));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "guard-screws")));
        Assert.Null(bay.Do(0, new Moved(Move.PartOff, "shaft-guard")));
        Assert.StartsWith(over, bay.Do(0, new Moved(Move.JointUndone, "shaft-pin"))!.Sentence);
        // What is only taken in goes into the next asking, and waits like the rest.
        Assert.Null(bay.Do(0, new GoalAdded(["pump"], [])));
        Assert.Null(bay.Do(0, new TakenBack(bay.On(0).Entries[^1].Id)));
        Assert.Contains("local law", bay.Do(0, new Moved(Move.JointUndone, "shaft-pin"))!.Sentence);
        Assert.Null(bay.Do(0, new Moved(Move.PartFitted, "shaft-guard")));

        // On the record with a reason, which is not said to be against the map.
        Assert.Null(bay.Do(0, new Moved(Move.PartOff, "shaft-guard")));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "shaft-pin", "the customer is on a plane")));
        Assert.Equal(["Person 0 recorded “Taper bolt through the drive shaft yoke” (joint undone) beyond the agreed sum: the customer is on a plane."], bay.On(0).Standing.BeyondAgreed);
        Assert.Empty(bay.On(0).Standing.AgainstTheMap);
        Assert.Null(bay.Do(0, new GoalAdded(["pump"], []) { Despite = "it leaks too, and is open now." }));
        Assert.Equal("Person 0 recorded “Pump” (goal added) beyond the agreed sum: it leaks too, and is open now.", bay.On(0).Standing.BeyondAgreed[^1]);
        Assert.Null(bay.Do(0, Core.Ledger.Priced.Of(Of(500), "The pump")));
        Assert.Null(bay.Do(0, Yes(bay, 0)));
        Assert.Null(bay.On(0).Standing.OverAgreed);
        Assert.Null(bay.Do(0, new Moved(Move.PartOff, "drive-shaft")));
    }

    [Fact]
    public void Work_taken_in_after_the_yes_waits_for_one_though_nobody_made_a_price_for_it()
    {
        var bay = Priced(100);
        Assert.Null(bay.Do(0, Yes(bay, 0)));
        Assert.Null(bay.Do(0, new GoalAdded(["drive-shaft"], [])));
        Act[] agreed = [new Moved(Move.SupplySafe, "line-pressure"), new Moved(Move.JointUndone, "shield-knobs"), new Moved(Move.PartOff, "side-shield"), new Moved(Move.JointUndone, "guard-screws"), new Moved(Move.PartOff, "shaft-guard")];
        Assert.All(agreed, act => Assert.Null(bay.Do(0, act)));
        Assert.Equal("This was taken in after The owner said yes. Get a yes to it, or write down why the work goes on without one.", bay.Do(0, new Moved(Move.JointUndone, "shaft-pin"))!.Sentence);
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "shaft-pin", "the customer is on a plane")));
        Assert.Single(bay.On(0).Standing.BeyondAgreed);
        Assert.NotNull(bay.Do(0, new Moved(Move.PartOff, "drive-shaft")));
        Assert.Null(bay.Do(0, Core.Ledger.Priced.Of(Of(105), "the shaft too")));
        Assert.Null(bay.Do(0, Yes(bay, 0)));
        Assert.Null(bay.Do(0, new Moved(Move.PartOff, "drive-shaft")));
    }

    [Fact]
    public void Work_that_the_map_does_not_know_wants_its_own_yes_and_a_price_that_has_it()
    {
        var bay = Priced(100);
        Assert.Null(bay.Do(0, Yes(bay, 0)));
        Assert.Null(bay.Do(0, new WorkTold("New seal in the shaft", null)));
        var standing = bay.On(0).Standing;
        Assert.Null(standing.Agreed);
        Assert.False(standing.LatestPrice!.Covers(standing));
        var refusal = bay.Do(0, new WorkDone("New seal in the shaft"))!;
        Assert.Equal(("This was taken in after The owner said yes. Get a yes to it, or write down why the work goes on without one.", true), (refusal.Sentence, refusal.AsksForYes));
        Assert.Null(bay.Do(0, Core.Ledger.Priced.Of(Of(105), "The seal too")));
        Assert.True(bay.On(0).Standing.LatestPrice!.Covers(bay.On(0).Standing));
        Assert.Null(bay.Do(0, Yes(bay, 0)));
        Assert.Null(bay.Do(0, new WorkDone("New seal in the shaft")));
        Assert.Empty(bay.On(0).Standing.BeyondAgreed);

        // Done without a yes, it is on the record with its reason.
        Assert.Null(bay.Do(0, new WorkTold("New drain hose", null)));
        Assert.Null(bay.Do(0, new WorkDone("New drain hose", "the old one fell apart")));
        Assert.Equal(["Person 0 recorded “New drain hose” (work done) beyond the agreed sum: the old one fell apart."], bay.On(0).Standing.BeyondAgreed);
        Assert.Empty(bay.On(0).Standing.Questions);
    }

    [Fact]
    public void A_yes_to_a_price_takes_in_what_is_renewed_besides_in_it()
    {
        var bay = Priced(100);
        Assert.Equal(RefusalKind.Unknown, bay.Do(0, Core.Ledger.Priced.Of(Of(150), "a part of another map") with { Also = ["hull"] })!.Kind);
        Assert.Null(bay.Do(0, Core.Ledger.Priced.Of(Of(150), "the pump too") with { Also = ["pump"] }));
        Assert.DoesNotContain("pump", bay.On(0).Standing.GoalParts);
        Assert.Contains("pump", bay.On(0).Standing.LatestPrice!.Goals);
        Assert.Null(bay.Do(0, Yes(bay, 0)));
        Assert.Contains("pump", bay.On(0).Standing.GoalParts);
        Assert.Contains("pump", bay.On(0).Standing.AgreedPrice!.GoalParts);
    }

    [Fact]
    public void An_entry_of_work_beyond_the_sum_counts_when_it_comes_in_and_is_asked_about()
    {
        var bay = Priced(100, devices: 2);
        Assert.Null(bay.Do(0, Yes(bay, 0)));
        bay.Pass(0, 1);
        Assert.Null(bay.Do(0, Core.Ledger.Priced.Of(Of(300), "The pump is gone")));
        Assert.Null(bay.Do(1, new GoalAdded(["pump"], [])));
        bay.Pass(1, 0);
        var standing = bay.On(0).Standing;
        Assert.Contains("pump", standing.GoalParts);
        Assert.Equal(100m, standing.AgreedPrice!.Price!.Price.Total.Amount);
        // In whichever order the two count, somebody has to get a yes.
        Assert.True(standing.Questions.Count > 0 || standing.OverAgreed is not null);
    }

    [Fact]
    public void Without_a_price_everything_is_as_it_was()
    {
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new Core.Ledger.Agreed("The owner", "in person", "Renew the diaphragm")));
        Assert.Null(bay.Do(0, new GoalAdded(["pump"], [])));
        Assert.Null(bay.On(0).Standing.Agreed);
        Assert.Null(bay.On(0).Standing.OverAgreed);
        Assert.Equal("""{"off":["pump"],"undo":[]}""", new GoalAdded(["pump"], []).ToData().ToJsonString());
        Assert.Equal("""{"who":"a","way":"b","what":"c"}""", new Core.Ledger.Agreed("a", "b", "c").ToData().ToJsonString());
    }

    [Fact]
    public void Payments_are_counted_after_the_handover_too_and_in_one_currency()
    {
        var bay = Priced(100);
        Assert.Null(bay.Do(0, Yes(bay, 0)));
        Assert.Null(bay.Do(0, new Paid(Money.Of(30, Euro), PaidWay.Transfer, "deposit")));
        Assert.Contains("a job is in one currency", bay.Do(0, new Paid(Money.Of(30, Currency.Of("CHF").Value!), PaidWay.Cash, "deposit"))!.Sentence);
        Assert.Contains("is none", bay.Do(0, new Paid(Money.Zero(Euro), PaidWay.Cash, "deposit"))!.Sentence);
        Assert.Equal("Write down what was paid for.", bay.Do(0, new Paid(Money.Of(1, Euro), PaidWay.Cash, " "))!.Sentence);
        Assert.Null(bay.Do(0, new HandedOver("The owner", new Override("The owner of the shop", "fetched undone"))));
        Assert.Null(bay.Do(0, new Paid(Money.Of(70, Euro), PaidWay.Cash, "the rest")));
        Assert.Equal(100m, bay.On(0).Standing.Payments.Sum(paid => paid.Amount.Amount));
        // No more goes back than came in.
        Assert.Contains("100.01 EUR is more than came in", bay.Do(0, new Paid(-Money.Of(100.01m, Euro), PaidWay.Cash, "the core charge"))!.Sentence);
        Assert.Null(bay.Do(0, new Paid(-Money.Of(60, Euro), PaidWay.Cash, "the core charge")));
        Assert.Equal(40m, bay.On(0).Standing.Payments.Sum(paid => paid.Amount.Amount));
    }

    [Fact]
    public void A_price_in_another_currency_or_too_long_for_an_entry_is_refused()
    {
        var bay = Priced(100);
        var franc = Currency.Of("CHF").Value!;
        var foreign = Price.Of(new PriceDraft(franc, Rounding.Usual, [PriceLine.Of(franc, HalfWay.Up, LineGroup.Labour, "Work", 1, "h", 90, []).Value!])).Value!;
        Assert.Contains("This is in CHF, and the price of this job is in EUR", bay.Do(0, Core.Ledger.Priced.Of(foreign, "moved"))!.Sentence);
        var line = PriceLine.Of(Euro, HalfWay.Up, LineGroup.Parts, new string('x', 400), 1, "", 1, []).Value!;
        var some = Price.Of(new PriceDraft(Euro, Rounding.Usual, [.. Enumerable.Repeat(line, 400)])).Value!;
        Assert.Null(bay.Do(0, Core.Ledger.Priced.Of(some, "many parts")));
        var many = Price.Of(new PriceDraft(Euro, Rounding.Usual, [.. Enumerable.Repeat(line, 600)])).Value!;
        Assert.Contains("A price of 600 lines is too long for one entry of the ledger", bay.Do(0, Core.Ledger.Priced.Of(many, "very many parts"))!.Sentence);
    }

    [Fact]
    public void A_price_that_was_changed_in_the_ledger_does_not_count()
    {
        var act = Core.Ledger.Priced.Of(Of(100));
        var data = act.ToData();
        data["price"]!["total"] = "90.00";
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        var forged = EntryLine.Write(new Raw("priced", data), EntryId.Next(DateTimeOffset.UnixEpoch.AddYears(60), null, new byte[10]), "another", DateTimeOffset.UnixEpoch, "Somebody", null);
        var standing = bay.On(0).With(forged).Standing;
        Assert.Empty(standing.Prices);
        Assert.Contains("does not add up", standing.Unread.Single());
    }

    [Fact]
    public void What_a_later_version_writes_into_a_price_is_part_of_what_is_agreed_to()
    {
        var act = Core.Ledger.Priced.Of(Of(100));
        var data = act.ToData();
        data["price"]!["of_later"] = new JsonObject { ["a"] = 1 };
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        var later = EntryLine.Write(new Raw("priced", data), EntryId.Next(DateTimeOffset.UnixEpoch.AddYears(60), null, new byte[10]), "another", DateTimeOffset.UnixEpoch, "Somebody", null);
        var price = bay.On(0).With(later).Standing.LatestPrice!;
        Assert.Equal(100m, price.Price.Total.Amount);
        Assert.NotEqual(act.Sha256, price.Priced.Sha256);
    }

    private sealed record Raw(string Of, JsonObject Data) : Act
    {
        public override string Kind => Of;

        public override JsonObject ToData() => (JsonObject)Data.DeepClone();
    }

    private static Bay Priced(decimal total, int devices = 1)
    {
        var bay = new Bay(Net, ["upper-diaphragm"], [.. Enumerable.Repeat(TimeSpan.Zero, devices)]);
        Assert.Null(bay.Do(0, Core.Ledger.Priced.Of(Of(total))));
        return bay;
    }

    private static Price Of(decimal total) => Price.Of(new PriceDraft(Euro, Rounding.Usual, [PriceLine.Of(Euro, HalfWay.Up, LineGroup.Labour, "All of it", 1, "", total, []).Value!]) { Limit = Portion.OfPercent(10) }).Value!;

    private static Core.Ledger.Agreed Yes(Bay bay, int device) => new("The owner", "in person", "As in the price") { Price = AgreedPrice.To(bay.On(device).Standing.LatestPrice!) };
}
