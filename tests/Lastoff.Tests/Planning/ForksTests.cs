using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning;

public class ForksTests
{
    // Every legal set and order of the map with the other ways of that operation struck out, by the program the planner itself is checked against.
    [Fact]
    public void What_a_way_costs_is_what_trying_every_order_that_goes_that_way_costs() => RandomMaps.UpTo(7).Sample(
        map =>
        {
            var net = OperationNet.From(map);
            var goals = net.Nothing.With(net.Find(OperationKind.Off, map.Parts[^1].Id));
            var (standing, goal) = (Fold.Of(net, []), Goal.Renewing(map.Parts[^1].Id));
            var plan = Planner.Make(standing, goal, PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!;
            var forks = Forks.Of(standing, goal, plan, PlanLimits.Usual, TestContext.Current.CancellationToken);
            Assert.Equal(plan.Out.Where(step => PlanReplay.Operation(net, step) is { } x && net.Operations[x].Ways.Count > 1), forks.Select(fork => fork.Step));
            foreach (var fork in forks)
            {
                var x = PlanReplay.Operation(net, fork.Step)!.Value;
                Assert.Equal(Enumerable.Range(0, net.Operations[x].Ways.Count), fork.Ways.Select(way => way.Way));
                Assert.Equal(new ForkWay(fork.Step.Way, plan.MinutesP50, plan.LowerBoundMinutes, null), fork.Ways[fork.Step.Way]);
                foreach (var way in fork.Ways.Where(way => way.Way != fork.Step.Way))
                {
                    var best = EveryOrder.Best(net, goals.With(x), net.Nothing, (operation, other) => operation.Index == x && !ReferenceEquals(operation.Ways[way.Way], other));
                    Assert.Equal(best == long.MaxValue, way.Minutes is null);
                    Assert.True(way.Minutes is null || Math.Abs((best / 1000.0) - way.Minutes.Value) < 1e-9, $"{fork.Step.Target} by way {way.Way}: {way.Minutes} and not {best / 1000.0}");
                    Assert.Equal(way.Minutes is null, way.Instead is null);
                }
            }
        },
        iter: 300);

    [Fact]
    public void A_search_cut_short_never_claims_more_than_trying_every_order_shows() => RandomMaps.UpTo(7).Sample(
        map =>
        {
            var net = OperationNet.From(map);
            var (standing, goal) = (Fold.Of(net, []), Goal.Renewing(map.Parts[^1].Id));
            var plan = Planner.Make(standing, goal, PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!;
            var best = Forks.Of(standing, goal, plan, PlanLimits.Usual, TestContext.Current.CancellationToken).SelectMany(fork => fork.Ways);
            var cut = Forks.Of(standing, goal, plan, new PlanLimits(1), TestContext.Current.CancellationToken).SelectMany(fork => fork.Ways);
            Assert.All(best.Zip(cut), pair =>
            {
                Assert.Equal(pair.First.Minutes is null, pair.Second.Minutes is null);
                Assert.True(pair.First.Minutes is null || (pair.Second.AtLeast <= pair.First.Minutes + 1e-9 && pair.Second.Minutes >= pair.First.Minutes - 1e-9));
            });
        },
        iter: 150);

    [Fact]
    public void The_cowl_or_the_long_swivel_is_said_in_minutes_of_the_whole_plan()
    {
        var net = CowlOrSwivel.Net;
        var (standing, goal) = (Fold.Of(net, []), Goal.Renewing("pump"));
        var plan = Planner.Make(standing, goal, PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!;
        var fork = Assert.Single(Forks.Of(standing, goal, plan, PlanLimits.Usual, TestContext.Current.CancellationToken));
        Assert.Equal(("bolt", 0), (fork.Step.Target, fork.Step.Way));
        // With the cowl: cowl 2 + 2, bolt 2 + 2, pump 2 + 3. With the swivel: bolt 3 times 2 + 2, pump 2 + 3.
        Assert.Equal([13.0, 17.0], fork.Ways.Select(way => way.Minutes!.Value));
        Assert.Equal("cowl", Assert.Single(fork.Ways[1].Instead!.Dropped).Target);
    }
}
