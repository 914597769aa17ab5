using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning;

public class AlternativesTests
{
    // Every legal set and order of the map with that way, or that operation, struck out, by the program the planner itself is checked against.
    [Fact]
    public void What_another_way_costs_is_what_trying_every_order_without_this_one_costs() => RandomMaps.UpTo(7).Sample(
        map =>
        {
            var net = OperationNet.From(map);
            var goals = net.Nothing.With(net.Find(OperationKind.Off, map.Parts[^1].Id));
            var (standing, goal) = (Fold.Of(net, []), Goal.Renewing(map.Parts[^1].Id));
            var plan = Planner.Make(standing, goal, PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!;
            var alternatives = Alternatives.Of(standing, goal, plan, PlanLimits.Usual, TestContext.Current.CancellationToken);
            Assert.Equal(plan.Out.Where(step => step.Kind != StepKind.Cover), alternatives.Select(a => a.Step));
            foreach (var alternative in alternatives)
            {
                var x = PlanReplay.Operation(net, alternative.Step)!.Value;
                int? struckOut = net.Operations[x].Ways.Count > 1 ? alternative.Step.Way : null;
                var best = EveryOrder.Best(net, goals, net.Nothing, (operation, way) => operation.Index == x && (struckOut is null || operation.Ways.Index().Any(w => w.Index == struckOut && ReferenceEquals(w.Item, way))));
                Assert.Equal(best == long.MaxValue, alternative.Instead is null);
                if (alternative.MinutesMore is { } more)
                {
                    Assert.Equal(best / 1000.0 - plan.MinutesP50, more, 1e-9);
                    Assert.Equal(more, alternative.AtLeastMore!.Value, 1e-9);
                    Assert.True(more >= -1e-9);
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
            var best = Alternatives.Of(standing, goal, plan, PlanLimits.Usual, TestContext.Current.CancellationToken);
            var cut = Alternatives.Of(standing, goal, plan, new PlanLimits(1), TestContext.Current.CancellationToken);
            Assert.All(best.Zip(cut), pair =>
            {
                Assert.Equal(pair.First.Instead is null, pair.Second.Instead is null);
                Assert.True(pair.Second.Instead is null || (pair.Second.AtLeastMore <= pair.First.MinutesMore + 1e-9 && pair.Second.MinutesMore >= pair.First.MinutesMore - 1e-9));
            });
        },
        iter: 150);

    [Fact]
    public void The_sentence_says_what_would_be_left_and_done_instead()
    {
        var net = CowlOrSwivel.Net;
        var (standing, goal) = (Fold.Of(net, []), Goal.Renewing("pump"));
        var plan = Planner.Make(standing, goal, PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!;
        Assert.Equal(
            [
                ("cowl", "Otherwise: leave “Cowl” in place; “Pump bolt” from below with long swivel (6 min): 4 min more."),
                ("bolt", "Otherwise: leave “Cowl” in place; “Pump bolt” from below with long swivel (6 min): 4 min more."),
                ("pump", "No way round it on this map."),
            ],
            Alternatives.Of(standing, goal, plan, PlanLimits.Usual, TestContext.Current.CancellationToken).Select(a => (a.Step.Target, a.Sentence)));
    }

    [Fact]
    public void Every_reason_leads_on_to_a_goal_by_steps_of_the_plan() => RandomMaps.UpTo(25).Sample(
        map =>
        {
            var net = OperationNet.From(map);
            var plan = Planner.Make(net, Goal.Renewing(map.Parts[^1].Id), net.Nothing, new PlanLimits(1000), TestContext.Current.CancellationToken).Plan!;
            var out_ = plan.Out.Where(step => step.Kind != StepKind.Cover).Select(step => step.Target).ToList();
            foreach (var step in plan.Out.Concat(plan.Back).Where(step => PlanReplay.Operation(net, step) is not null))
            {
                Assert.All(step.Chain, target => Assert.Contains(target, out_));
                Assert.True(step.Chain.Count > 0 ? step.Chain[^1] == map.Parts[^1].Id || !step.Why.Contains("renewed") : step.Why.Contains("goal") || step.Why.Contains("shorter"), $"{step}: {string.Join(' ', step.Chain)}");
            }
        },
        iter: 200);
}
