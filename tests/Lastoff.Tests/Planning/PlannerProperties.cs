using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Ledger;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning;

/// <summary>What must hold for the plan of any map, from any legal standing.</summary>
public class PlannerProperties
{
    private static readonly PlanLimits Small = new(3000);

    /// <summary>A map, some of its parts as the goal, and a standing reached by legal steps.</summary>
    private static Gen<Case> Cases(int operations) =>
        Gen.Select(RandomMaps.UpTo(operations), Gen.Byte.Array[0, 30], (map, bytes) => Case.Of(map, new Choices(bytes)));

    [Fact]
    public void The_way_out_is_legal_and_reaches_every_goal() => Cases(30).Sample(
        c =>
        {
            var undone = PlanReplay.Out(c.Net, c.Start, c.Plan(Small).Out);
            Assert.NotNull(undone);
            Assert.True(c.Goals.IsSubsetOf(undone.Value));
        },
        iter: Tries.Of(300));

    [Fact]
    public void The_way_back_is_legal_and_leaves_nothing_undone() => Cases(30).Sample(
        c =>
        {
            var plan = c.Plan(Small);
            var undone = PlanReplay.Out(c.Net, c.Start, plan.Out)!.Value;
            Assert.Equal(0, PlanReplay.Back(c.Net, undone, plan.Back)!.Value.Count);
        },
        iter: Tries.Of(300));

    [Fact]
    public void A_strip_run_backwards_is_a_legal_way_home() => Cases(30).Sample(
        c =>
        {
            var steps = c.Plan(Small).Out.Select(step => PlanReplay.Operation(c.Net, step)).OfType<int>().ToList();
            var done = steps.Aggregate(c.Start, (set, x) => set.With(x));
            foreach (var x in Enumerable.Reverse(steps))
            {
                Assert.True(c.Net.CanReverse(done, x));
                done = done.Without(x);
            }

            Assert.Equal(c.Start, done);
        },
        iter: Tries.Of(150));

    [Fact]
    public void The_way_back_is_never_slower_than_the_way_out_reversed() => Cases(30).Sample(
        c =>
        {
            var whole = c with { Start = c.Net.Nothing };
            var plan = whole.Plan(Small);
            var reversed = 0.0;
            var hand = (Tool: Tool.Hand, At: Position.Front);
            foreach (var step in plan.Out.Where(step => PlanReplay.Operation(c.Net, step) is not null).Reverse())
            {
                var x = c.Net.Operations[PlanReplay.Operation(c.Net, step)!.Value];
                var times = x.Ways.Where(w => w.Tool == step.Tool && w.At == step.At && Math.Abs(x.OutMinutes * w.Times - step.Minutes) < 0.0006).Max(w => w.Times);
                reversed += x.BackMinutes * times + Change(c.Net.Map.SetUp, hand, (step.Tool, step.At));
                hand = (step.Tool, step.At);
            }

            var back = plan.Back.Where(step => PlanReplay.Operation(c.Net, step) is not null).Sum(step => step.Minutes + step.SetUpMinutes);
            Assert.True(back <= reversed + 1e-6, $"back {back}, reversed {reversed}");
        },
        iter: Tries.Of(300));

    [Fact]
    public void Leaving_out_any_one_operation_makes_the_plan_impossible_as_it_is_written() => Cases(20).Sample(
        c =>
        {
            var plan = c.Plan(Small);
            foreach (var x in plan.Out.Select(step => PlanReplay.Operation(c.Net, step)).OfType<int>())
            {
                var undone = PlanReplay.Out(c.Net, c.Start, Without(plan.Out, x));
                Assert.True(
                    undone is null
                    || !c.Goals.IsSubsetOf(undone.Value)
                    || PlanReplay.Back(c.Net, undone.Value, Without(plan.Back, x)) is null,
                    $"without {c.Net.Operations[x].Name}: {string.Join("; ", plan.Out.Concat(plan.Back).Select(step => $"{step.Kind} {step.Target} {step.Minutes}+{step.SetUpMinutes}"))}");
            }

            IEnumerable<PlanStep> Without(IReadOnlyList<PlanStep> steps, int x) => steps.Where(step => PlanReplay.Operation(c.Net, step) != x);
        },
        iter: Tries.Of(300));

    [Fact]
    public void Small_maps_are_planned_as_well_as_trying_every_order() => Cases(9).Sample(
        c =>
        {
            var plan = c.Plan(PlanLimits.Usual);
            Assert.True(plan.ProvenOptimal, plan.Unproven);
            Assert.Equal(EveryOrder.Best(c.Net, c.Goals, c.Start) / 1000.0, plan.MinutesP50, 1e-9);
            Assert.Equal(plan.MinutesP50, plan.LowerBoundMinutes, 1e-9);
        },
        iter: Tries.Of(400));

    [Fact]
    public void A_search_cut_short_never_claims_a_bound_above_the_best() => Cases(9).Sample(
        c =>
        {
            var best = EveryOrder.Best(c.Net, c.Goals, c.Start) / 1000.0;
            var plan = c.Plan(new PlanLimits(1));
            Assert.True(plan.LowerBoundMinutes <= best + 1e-9, $"bound {plan.LowerBoundMinutes}, best {best}");
            Assert.True(plan.MinutesP50 >= best - 1e-9);
            Assert.Equal(plan.ProvenOptimal, plan.Unproven is null);
            Assert.True(!plan.ProvenOptimal || Math.Abs(plan.MinutesP50 - best) < 1e-9);
        },
        iter: Tries.Of(150));

    [Fact]
    public void The_first_trip_is_legal_and_its_bound_is_never_above_the_best() => Cases(9).Sample(
        c =>
        {
            var best = EveryOrder.Best(c.Net, c.Goals, c.Start);
            if (FirstTrip.Of(MapTrip.Of(c.Net, [.. c.Goals.Select(c.Net.Nothing.With)], c.Start), TestContext.Current.CancellationToken) is not { } trip)
            {
                return;
            }

            var undone = c.Start;
            foreach (var step in trip.Out)
            {
                Assert.True(c.Net.Operations[step.Operation].Ways[step.Way].IsOpen(undone));
                undone = undone.With(step.Operation);
            }

            Assert.True(c.Goals.IsSubsetOf(undone));
            foreach (var step in trip.Back)
            {
                Assert.True(c.Net.CanReverse(undone, step.Operation));
                undone = undone.Without(step.Operation);
            }

            Assert.Equal(0, undone.Count);
            Assert.True(trip.LowerBound <= best && best <= trip.Cost, $"bound {trip.LowerBound}, best {best}, cost {trip.Cost}");
            Assert.Equal(trip.Unproven is null, trip.LowerBound == trip.Cost);
        },
        iter: Tries.Of(400));

    [Fact]
    public void Minutes_add_up_and_the_cautious_figure_is_not_below_the_typical_one() => Cases(30).Sample(
        c =>
        {
            var plan = c.Plan(Small);
            Assert.Equal(plan.MinutesP50, plan.Out.Concat(plan.Back).Sum(step => step.AllMinutes), 1e-6);
            Assert.True(plan.MinutesP90 >= plan.MinutesP50);
            Assert.True(plan.LowerBoundMinutes <= plan.MinutesP50 + 1e-9);
        },
        iter: Tries.Of(150));

    [Fact]
    public void Every_operation_has_its_step_back_and_everything_disturbed_gets_its_due() => Cases(30).Sample(
        c =>
        {
            var plan = c.Plan(Small);
            var undone = PlanReplay.Out(c.Net, c.Start, plan.Out)!.Value;
            Assert.Equal(undone.Order(), plan.Back.Select(step => PlanReplay.Operation(c.Net, step)).OfType<int>().Order());

            var disturbed = undone.Select(x => c.Net.Operations[x].Target).ToHashSet();
            var renewals = c.Net.Map.Renewals.Where(r => disturbed.Contains(r.For)).Select(r => r.Id)
                .Concat(c.Net.Map.Joints.Where(j => j.OneTime && disturbed.Contains(j.Id)).Select(j => $"{j.Id}.new"))
                // Where the map renews the part each time it comes off, that is its new one.
                .Concat(c.Goal.Off.Where(part => !c.Net.Map.Renewals.Any(r => r.For == part && r.Kind == RenewalKind.Part)).Select(part => $"{part}.new"));
            Assert.Equal(renewals.Order(), plan.Renewals.Select(r => r.Id).Order());
            Assert.Equal(renewals.Order(), Targets(StepKind.Renew).Order());
            Assert.Equal(c.Net.Map.Proofs.Where(p => disturbed.Contains(p.For)).Select(p => p.Id).Order(), Targets(StepKind.Prove).Order());

            var laidBare = c.Net.Map.Openings.Where(o => disturbed.Contains(o.On));
            Assert.Equal(laidBare.Select(o => o.Id).Order(), Targets(StepKind.Uncover).Order());

            IEnumerable<string> Targets(StepKind kind) => plan.Back.Where(step => step.Kind == kind).Select(step => step.Target);
        },
        iter: Tries.Of(150));

    [Fact]
    public void A_joint_of_the_job_is_looked_at_last_just_before_it_is_hidden() => Cases(30).Sample(
        c =>
        {
            var plan = c.Plan(Small);
            var undone = PlanReplay.Out(c.Net, c.Start, plan.Out)!.Value;
            var ofTheJob = undone;
            var looks = new HashSet<string>();
            foreach (var step in plan.Back)
            {
                if (step.Kind == StepKind.LastLook)
                {
                    looks.Add(step.Target);
                }

                if (PlanReplay.Operation(c.Net, step) is { } x)
                {
                    var hidden = c.Net.HiddenBy(undone, x).Where(j => ofTheJob.Contains(c.Net.Find(OperationKind.Undo, j.Id))).Select(j => j.Id);
                    Assert.Equal(hidden.Order(), looks.Order());
                    looks.Clear();
                    undone = undone.Without(x);
                }
            }
        },
        iter: Tries.Of(150));

    [Fact]
    public void The_same_question_has_the_same_answer() => Cases(20).Sample(
        c =>
        {
            var (first, second) = (c.Plan(Small), c.Plan(Small));
            Assert.Equal(Bare(first.Out), Bare(second.Out));
            Assert.Equal(Bare(first.Back), Bare(second.Back));

            // Lists are the same only by what is in them.
            IEnumerable<(PlanStep, string)> Bare(IReadOnlyList<PlanStep> steps) => steps.Select(step => (step with { Chain = [] }, string.Join(' ', step.Chain)));
        },
        iter: Tries.Of(100));

    [Fact]
    public void A_standing_that_the_map_calls_impossible_is_still_brought_home() =>
        Gen.Select(RandomMaps.UpTo(15), Gen.Byte.Array[0, 30], (map, bytes) => (Case: Case.Of(map, new Choices(bytes)), Bytes: bytes)).Sample(
            sample =>
            {
                var net = sample.Case.Net;
                var anything = OperationSet.Of(net.Operations.Count, sample.Bytes.Select(b => b % net.Operations.Count));
                var c = sample.Case with { Start = anything };
                var plan = c.Plan(Small);
                var undone = PlanReplay.Out(net, c.Start, plan.Out)!.Value;
                foreach (var x in plan.Back.Select(step => PlanReplay.Operation(net, step)).OfType<int>())
                {
                    Assert.True(net.CanReverse(undone, x));
                    undone = undone.Without(x);
                }

                Assert.Equal(0, undone.Count);
            },
            iter: Tries.Of(300));

    [Fact]
    public void The_ledger_accepts_every_step_in_its_turn_and_nothing_is_left_open() => Cases(30).Sample(
        c =>
        {
            var whole = c with { Start = c.Net.Nothing };
            var plan = whole.Plan(Small);
            var bay = new Bay(c.Net, c.Goal.Off, TimeSpan.Zero);
            Assert.Null(bay.Do(0, new GoalAdded(c.Goal.Off, c.Goal.Undo)));
            Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "As planned")));
            foreach (var step in plan.Out.Concat(plan.Back))
            {
                Assert.True(bay.Do(0, step) is not { } refusal, $"{step.Kind} {step.Target}: {bay.Do(0, step)?.Sentence}");
            }

            var standing = bay.On(0).Standing;
            Assert.Empty(OpenItems.Of(standing));
            Assert.Equal(plan.Out.Count(step => step.Kind == StepKind.Cover), standing.CoversTakenOut);
            Assert.Equal(standing.CoversPutIn, standing.CoversTakenOut);
        },
        iter: Tries.Of(300));

    private static double Change(SetUpMinutes minutes, (Tool Tool, Position At) from, (Tool Tool, Position At) to) =>
        (to.Tool != from.Tool && !to.Tool.IsHand ? minutes.Tool : 0)
        + (from.At != to.At ? minutes.Position : 0)
        + (from.At == Position.Below != (to.At == Position.Below) ? minutes.Lift : 0);

    private sealed record Case(OperationNet Net, Goal Goal, OperationSet Goals, OperationSet Start)
    {
        public static Case Of(Map map, Choices choices)
        {
            var net = OperationNet.From(map);
            var goal = new Goal(
                [.. Enumerable.Range(0, 1 + choices.Next(2)).Select(_ => choices.Of(map.Parts).Id).Distinct()],
                map.Joints.Count > 0 && choices.OneIn(4) ? [choices.Of(map.Joints).Id] : []);
            var goals = OperationSet.Of(
                net.Operations.Count,
                goal.Off.Select(p => net.Find(OperationKind.Off, p)).Concat(goal.Undo.Select(j => net.Find(OperationKind.Undo, j))));
            var start = net.Nothing;
            for (var steps = choices.Next(12); steps > 0; steps--)
            {
                var open = Enumerable.Range(0, net.Operations.Count).Where(x => net.CanDo(start, x)).ToList();
                start = open.Count == 0 ? start : start.With(choices.Of(open));
            }

            return new Case(net, goal, goals, start);
        }

        public Plan Plan(PlanLimits limits) => Planner.Make(Net, Goal, Start, limits).Plan!;

        public override string ToString() =>
            $"off {string.Join(' ', Goal.Off)} undo {string.Join(' ', Goal.Undo)} done [{string.Join(", ", Start.Select(x => $"{Net.Operations[x].Kind} {Net.Operations[x].Target}"))}]\n"
            + string.Join('\n', Net.Operations.Select(o => $"{o.Index} {o.Kind} {o.Target} out {o.OutMinutes} back {o.BackMinutes}: "
                + string.Join(" | ", o.Ways.Select(w => $"x{w.Times} {w.Tool} {w.At} needs {string.Join(' ', w.Needs.Select(s => $"({string.Join(',', s)})"))}"))));
    }
}
