using CsCheck;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning;

/// <summary>What runs by itself: as the map says it, as the search is told it, as the mechanic reads it.</summary>
public class RunningTests
{
    /// <summary>An invented tank: an engine that cools, then water that drains, a hose, and a lid on sealant.</summary>
    private static readonly OperationNet Tank = OperationNet.From(new Map
    {
        Name = "tank",
        Title = "Tank of an invented barrow",
        Supplies =
        [
            new Supply { Id = "heat", Name = "Engine running", Kind = SupplyKind.Heat, SafeMinutes = 0.5, RunsMinutes = 30 },
            new Supply { Id = "water", Name = "Water", Kind = SupplyKind.Coolant, SafeMinutes = 2, RunsMinutes = 12, RestoreMinutes = 6, Needs = ["heat"] },
        ],
        Parts = [new Part { Id = "lid", Name = "Lid", OffMinutes = 1, OnMinutes = 1 }],
        Joints =
        [
            new Joint { Id = "hose", Name = "Hose", Kind = JointKind.Hose, Holds = ["lid"], UndoMinutes = 1, MakeMinutes = 1, Needs = ["water"] },
            new Joint { Id = "bead", Name = "Lid on its sealant", Kind = JointKind.Face, Holds = ["lid"], UndoMinutes = 3, MakeMinutes = 4, CuresMinutes = 20, Needs = ["water"] },
            new Joint { Id = "screws", Name = "Screws", Kind = JointKind.Screw, Holds = ["lid"], UndoMinutes = 2, MakeMinutes = 2 },
        ],
    });

    private static int Op(OperationKind kind, string target) => Tank.Find(kind, target);

    [Fact]
    public void The_search_is_told_what_runs_between_which_operations()
    {
        var (heat, water, hose, bead) = (Op(OperationKind.MakeSafe, "heat"), Op(OperationKind.MakeSafe, "water"), Op(OperationKind.Undo, "hose"), Op(OperationKind.Undo, "bead"));
        Assert.Equal(
            [new TripLag(heat, water, 30_000, 0), new TripLag(water, hose, 12_000, 0), new TripLag(water, bead, 12_000, 20_000)],
            MapTrip.Of(Tank, [], Tank.Nothing).Lags.OrderBy(lag => lag.Before).ThenBy(lag => lag.Then));
    }

    [Fact]
    public void Of_any_map_a_lag_lies_only_where_no_way_goes_round_what_runs() => RandomMaps.Waiting(30).Sample(
        map =>
        {
            var net = OperationNet.From(map);
            var all = OperationSet.Of(net.Operations.Count, Enumerable.Range(0, net.Operations.Count));
            var lags = MapTrip.Of(net, [], net.Nothing).Lags;
            Assert.Equal(lags.Count, lags.Select(lag => (lag.Before, lag.Then)).Distinct().Count());
            foreach (var lag in lags)
            {
                Assert.Null(net.OpenWay(all.Without(lag.Before).Without(lag.Then), lag.Then));
                Assert.True(lag.Out > 0 || lag.Back > 0);
            }

            var expected = map.Joints.Sum(j => j.Needs.Count * j.CuresMinutes);
            Assert.Equal(expected * 1000, lags.Sum(lag => lag.Back), 0.5);
            Assert.Equal(
                map.Supplies.Where(s => s.RunsMinutes > 0).Sum(s => s.RunsMinutes * (map.Joints.Count(j => j.Needs.Contains(s.Id)) + map.Supplies.Count(o => o.Needs.Contains(s.Id)))) * 1000,
                lags.Sum(lag => lag.Out), 0.5);
        },
        iter: 500);

    [Fact]
    public void A_wait_says_what_it_is_for_and_what_runs_is_said_where_it_starts()
    {
        TripStep Step(OperationKind kind, string target, long work, long wait = 0) => new(Op(kind, target), 0, 0, work, wait);
        var trip = new Trip(
            [
                Step(OperationKind.MakeSafe, "heat", 500), Step(OperationKind.Undo, "screws", 2_000), Step(OperationKind.MakeSafe, "water", 2_000, wait: 28_000),
                Step(OperationKind.Undo, "hose", 1_000, wait: 12_000), Step(OperationKind.Undo, "bead", 3_000), Step(OperationKind.Off, "lid", 1_000),
            ],
            [
                Step(OperationKind.Off, "lid", 1_000), Step(OperationKind.Undo, "bead", 4_000), Step(OperationKind.Undo, "screws", 2_000), Step(OperationKind.Undo, "hose", 1_000),
                Step(OperationKind.MakeSafe, "water", 6_000, wait: 17_000), Step(OperationKind.MakeSafe, "heat", 0),
            ],
            80_500, 80_500, null);
        var plan = new PlanBuilder(Tank, Goal.Renewing("lid"), Tank.Nothing, [], trip).Build();
        Assert.Equal(
            [("water", 28, "Engine running still cools"), ("hose", 12, "Water still drains"), ("water", 17, "Lid on its sealant still cures")],
            plan.Out.Concat(plan.Back).Where(step => step.WaitMinutes > 0).Select(step => (step.Target, step.WaitMinutes, step.WaitFor!)));
        Assert.All(plan.Out.Concat(plan.Back), step => Assert.Equal(step.WaitMinutes > 0, step.WaitFor is not null));
        Assert.Equal(
            [("heat", "cools", 30), ("water", "drains", 12), ("bead", "cures", 20)],
            plan.Out.Concat(plan.Back).Where(step => step.Runs is not null).Select(step => (step.Target, step.Runs!, step.RunsMinutes)));
        Assert.Equal(plan.MinutesP50, plan.Out.Concat(plan.Back).Sum(step => step.AllMinutes), 1e-9);
        Assert.Contains("Hot parts burn", plan.Out[0].Caution);
        Assert.Contains("everybody clear", plan.Back.Last().Caution);
    }

    [Fact]
    public void A_plan_of_a_map_with_waits_is_as_legal_as_any() => RandomMaps.Waiting(25).Sample(
        map =>
        {
            var net = OperationNet.From(map);
            var plan = Planner.Make(net, Goal.Renewing(map.Parts[^1].Id), net.Nothing, new PlanLimits(1000)).Plan!;
            var undone = PlanReplay.Out(net, net.Nothing, plan.Out);
            Assert.Equal(0, PlanReplay.Back(net, undone!.Value, plan.Back)!.Value.Count);
            Assert.Equal(plan.MinutesP50, plan.Out.Concat(plan.Back).Sum(step => step.AllMinutes), 1e-6);
        },
        iter: 200);
}
