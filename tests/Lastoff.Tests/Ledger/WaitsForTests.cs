using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Pricing;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Ledger;

/// <summary>What an open job waits for, and whom, at every turn of its life.</summary>
public class WaitsForTests
{
    private static readonly OperationNet Net = OperationNet.From(Demo.Map("orchard-sprayer-pump"));
    private static readonly Currency Euro = Currency.Of("EUR").Value!;

    /// <summary>After everything the devices of <see cref="Bay"/> write.</summary>
    private static readonly DateTimeOffset Now = new(2026, 3, 2, 12, 0, 0, TimeSpan.Zero);

    [Fact]
    public void First_it_waits_for_the_yes_then_for_the_yes_to_a_sum_and_again_when_the_price_goes_over()
    {
        var bay = Opened();
        Assert.Equal((WaitKind.Yes, null), Kind(Assert.Single(Waits(bay))));
        Assert.Null(bay.Do(0, Priced.Of(Of(100))));
        var priced = Assert.Single(Waits(bay));
        Assert.Equal((WaitKind.Yes, 100m), Kind(priced));
        Assert.Equal(bay.On(0).Entries[^1].At, priced.Since);

        Assert.Null(bay.Do(0, Yes(bay)));
        Assert.Equal([(WaitKind.Hand, null)], Waits(bay).Select(Kind));
        // Within the limit nobody is asked again; beyond it the work that was agreed goes on beside.
        Assert.Null(bay.Do(0, Priced.Of(Of(105), "A clamp more")));
        Assert.Equal([(WaitKind.Hand, null)], Waits(bay).Select(Kind));
        Assert.Null(bay.Do(0, Priced.Of(Of(120), "The case is cracked")));
        Assert.Equal([(WaitKind.Yes, 120m), (WaitKind.Hand, null)], Waits(bay).Select(Kind));
    }

    [Fact]
    public void What_is_not_here_is_waited_for_until_it_is_and_what_holds_up_the_start_comes_first()
    {
        var bay = Agreed();
        Act[] told =
        [
            new ItemTold("Pump oil", ItemState.Ordered, "at the counter") { Awaited = new DateOnly(2026, 3, 4) },
            new ItemTold("Copper washers", ItemState.Missing, ""),
            new ItemTold("Upper diaphragm", ItemState.Missing, "") { HoldsUpTheStart = true },
            new ItemTold("Oil filter", ItemState.Wrong, "for the other pump"),
        ];
        Assert.All(told, act => Assert.Null(bay.Do(0, act)));
        var items = Waits(bay).Where(wait => wait.Kind == WaitKind.Item).ToList();
        Assert.Equal(["Upper diaphragm", "Pump oil", "Oil filter"], items.Select(wait => wait.Item!.Item));
        Assert.Equal(bay.On(0).Entries[^4].At, items[1].Since);

        Assert.Null(bay.Do(0, new ItemTold("Upper diaphragm", ItemState.Here, "") { HoldsUpTheStart = true }));
        Assert.Null(bay.Do(0, new ItemTold("Pump oil", ItemState.Here, "")));
        Assert.Equal(["Oil filter"], Waits(bay).Where(wait => wait.Kind == WaitKind.Item).Select(wait => wait.Item!.Item));
    }

    [Fact]
    public void A_part_that_was_fitted_is_waited_for_no_more_though_nobody_said_that_it_came()
    {
        var bay = Agreed();
        var part = Net.NameToBuy(Net.NewPart("upper-diaphragm"));
        Assert.Null(bay.Do(0, new ItemTold(part, ItemState.Ordered, "")));
        Assert.Contains(Waits(bay), wait => wait.Item?.Item == part);
        Work(bay, until: standing => standing.Renewed.Contains(Net.NewPart("upper-diaphragm").Id));
        Assert.DoesNotContain(Waits(bay), wait => wait.Kind == WaitKind.Item);
    }

    [Fact]
    public void The_hand_is_whoever_was_last_at_the_machine_and_not_whoever_wrote_last()
    {
        var bay = Agreed(devices: 2);
        Assert.Empty(Assert.Single(Waits(bay)).Whom);
        bay.Pass(0, 1);
        var plan = Planner.Make(bay.On(1).Standing, GoalLeft.Of(bay.On(1).Standing), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        Assert.Null(bay.Do(1, NextStep.Of(bay.On(1).Standing, plan)!));
        bay.Pass(1, 0);
        var worked = bay.On(0).Entries[^1];
        Assert.Null(bay.Do(0, new Noted("The customer rang")));
        var hand = Assert.Single(Waits(bay));
        Assert.Equal((WaitKind.Hand, "Person 1", worked.At), (hand.Kind, Assert.Single(hand.Whom), hand.Since));
        // Taken back, it was nobody.
        Assert.Null(bay.Do(1, new TakenBack(worked.Id)));
        bay.Pass(1, 0);
        Assert.Empty(Assert.Single(Waits(bay)).Whom);
    }

    [Fact]
    public void Two_who_say_differently_are_both_waited_for()
    {
        var bay = Agreed(devices: 2);
        bay.Pass(0, 1);
        Assert.Null(bay.Do(0, new ItemTold("Pump oil", ItemState.Here, "")));
        Assert.Null(bay.Do(1, new ItemTold("Pump oil", ItemState.Wrong, "")));
        bay.Pass(1, 0);
        var settling = Waits(bay)[0];
        Assert.Equal((WaitKind.Settling, "Person 0 Person 1"), (settling.Kind, string.Join(' ', settling.Whom.Order(StringComparer.Ordinal))));
        Assert.Equal(bay.On(0).Standing.Questions[0].Sentence, settling.Question);
    }

    [Fact]
    public void With_nothing_open_it_waits_to_be_handed_over_and_then_for_nothing()
    {
        var bay = Agreed();
        Work(bay, until: _ => false);
        Assert.Equal([(WaitKind.HandOver, null)], Waits(bay).Select(Kind));
        Assert.Null(bay.Do(0, new HandedOver("The owner", null)));
        Assert.Empty(Waits(bay));
    }

    [Fact]
    public void Of_the_days_agreed_only_the_next_one_ahead_counts()
    {
        var bay = Opened();
        Assert.Null(bay.Do(0, new AppointmentSet("is fetched", Now.AddDays(9))));
        Assert.Null(bay.Do(0, new AppointmentSet("came in", Now.AddDays(-1))));
        Assert.Null(bay.Do(0, new AppointmentSet("comes in", Now.AddDays(2))));
        Assert.Equal("comes in", Assert.Single(Waits(bay), wait => wait.Kind == WaitKind.Day).Day!.What);
    }

    [Fact]
    public void Photos_on_their_way_are_counted_by_who_took_them()
    {
        var bay = Opened(devices: 2);
        Assert.Null(bay.Do(0, new PhotoTaken(new string('a', 64), new string('b', 64))));
        Assert.Null(bay.Do(0, new PhotoTaken(new string('c', 64), new string('d', 64))));
        Assert.Null(bay.Do(1, new PhotoTaken(new string('e', 64), new string('f', 64))));
        bay.Pass(1, 0);
        var away = WaitsFor.OfPhotos(Photos.Of(bay.On(0)).Select(photo => photo.Entry.By));
        Assert.Equal([("Person 0", 2), ("Person 1", 1)], away.Select(wait => (wait.Whom[0], wait.Photos)).Order());
        Assert.Empty(WaitsFor.OfPhotos([]));
    }

    private static Bay Opened(int devices = 1) => new(Net, ["upper-diaphragm"], new TimeSpan[devices]);

    private static Bay Agreed(int devices = 1)
    {
        var bay = Opened(devices);
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Go on")));
        return bay;
    }

    private static void Work(Bay bay, Func<Standing, bool> until)
    {
        var plan = Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        while (!until(bay.On(0).Standing) && NextStep.Of(bay.On(0).Standing, plan) is { } step)
        {
            Assert.Null(bay.Do(0, step));
        }
    }

    private static IReadOnlyList<WaitsFor> Waits(Bay bay) => WaitsFor.Of(bay.On(0), Now);

    private static (WaitKind, decimal?) Kind(WaitsFor wait) => (wait.Kind, wait.Sum?.Amount);

    private static Price Of(decimal total) => Price.Of(new PriceDraft(Euro, Rounding.Usual, [PriceLine.Of(Euro, HalfWay.Up, LineGroup.Labour, "All of it", 1, "", total, []).Value!]) { Limit = Portion.OfPercent(10) }).Value!;

    private static Agreed Yes(Bay bay) => new("The owner", "in person", "As in the price") { Price = AgreedPrice.To(bay.On(0).Standing.LatestPrice!) };
}
