using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning;

public class ExtrasTests
{
    private static readonly PlanLimits Small = new(3000);

    private static Gen<(OperationNet Net, string Part)> Strips(int operations) =>
        Gen.Select(RandomMaps.UpTo(operations), Gen.Byte, (map, at) => (OperationNet.From(map), map.Parts[at % map.Parts.Count].Id));

    [Fact]
    public void Every_other_part_is_told_once_and_one_that_is_off_anyway_adds_nothing() => Strips(25).Sample(
        strip =>
        {
            var extras = Of(strip.Net, strip.Part);
            Assert.Equal(strip.Net.Map.Parts.Select(part => part.Id).Where(id => id != strip.Part).Order(), extras.Select(extra => extra.Part).Order());
            var off = Plan(strip.Net, strip.Part).Out.Where(step => step.Kind == StepKind.TakeOff).Select(step => step.Target).ToHashSet();
            Assert.All(extras, extra => Assert.True(!off.Contains(extra.Part) || extra.MinutesInStrip == 0, extra.ToString()));
        },
        iter: 200);

    [Fact]
    public void Nothing_costs_more_in_the_strip_than_alone() => Strips(25).Sample(
        strip => Assert.All(Of(strip.Net, strip.Part), extra => Assert.True(extra.MinutesSaved >= 0 && extra.MinutesAlone >= 0)),
        iter: 200);

    // Every legal set and order, by the program the planner itself is checked against: what is told can be done, so it is never below the best.
    [Fact]
    public void What_is_told_is_never_less_than_the_best_of_every_order() => Strips(7).Sample(
        strip =>
        {
            var (net, goal) = (strip.Net, strip.Net.Find(OperationKind.Off, strip.Part));
            var alone = EveryOrder.Best(net, net.Nothing.With(goal), net.Nothing) / 1000.0;
            foreach (var extra in Of(net, strip.Part))
            {
                var part = net.Nothing.With(net.Find(OperationKind.Off, extra.Part));
                Assert.True(extra.MinutesAlone >= EveryOrder.Best(net, part, net.Nothing) / 1000.0 - 1e-9);
                var both = EveryOrder.Best(net, part.With(goal), net.Nothing) / 1000.0;
                Assert.True(extra.MinutesInStrip >= both - alone - 1e-9 || extra.MinutesInStrip == extra.MinutesAlone, $"{extra}, both {both}, alone {alone}");
            }
        },
        iter: 100);

    [Fact]
    public void A_goal_that_is_not_there_is_refused_as_a_plan_is()
    {
        var net = OperationNet.From(RandomMaps.Build(new Choices([]), 5));
        Assert.Equal(Planner.Make(net, Goal.Renewing("nothing"), net.Nothing, Small, TestContext.Current.CancellationToken).Refusal,
            Extras.Of(net, Goal.Renewing("nothing"), net.Nothing, Small, TestContext.Current.CancellationToken).Refusal);
    }

    [Fact]
    public void What_was_found_stuck_counts_for_what_could_be_done_besides()
    {
        var net = OperationNet.From(new Map
        {
            Name = "two",
            Title = "Invented pump and fan side by side",
            SetUp = new SetUpMinutes(0, 0, 0),
            Parts = [new Part { Id = "pump", Name = "Pump", OffMinutes = 1, OnMinutes = 1 }, new Part { Id = "fan", Name = "Fan", OffMinutes = 1, OnMinutes = 1 }],
            Joints =
            [
                new Joint { Id = "pump-bolt", Name = "Pump bolt", Kind = JointKind.Bolt, Holds = ["pump"], UndoMinutes = 1, MakeMinutes = 1 },
                new Joint { Id = "fan-bolt", Name = "Fan bolt", Kind = JointKind.Bolt, Holds = ["fan"], UndoMinutes = 1, MakeMinutes = 1 },
            ],
        });
        Assert.Equal(4, Assert.Single(With()).MinutesInStrip, 1e-9);
        Assert.Equal(16, Assert.Single(With(new JointStuck("fan-bolt", 12, false, "rusted"))).MinutesInStrip, 1e-9);
        Assert.Empty(With(new JointStuck("fan-bolt", 0, true, "rusted through")));

        IReadOnlyList<Extra> With(params IReadOnlyList<JointStuck> stuck) => Extras.Of(net, Goal.Renewing("pump"), net.Nothing, Small, TestContext.Current.CancellationToken, stuck).Extras!;
    }

    private static IReadOnlyList<Extra> Of(OperationNet net, string part) => Extras.Of(net, Goal.Renewing(part), net.Nothing, Small).Extras!;

    private static Plan Plan(OperationNet net, string part) => Planner.Make(net, Goal.Renewing(part), net.Nothing, Small).Plan!;
}
