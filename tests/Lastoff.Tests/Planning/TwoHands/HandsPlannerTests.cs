using CsCheck;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Planning.TwoHands;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning.TwoHands;

/// <summary>Plans for two people on random maps, read as they are written.</summary>
public class HandsPlannerTests
{
    [Fact]
    public void Steps_are_legal_as_written_and_each_person_does_one_thing_at_a_time() => RandomMaps.UpTo(20).Sample(
        map =>
        {
            var net = OperationNet.From(map);
            var plan = HandsPlanner.Make(net, Goal.Renewing(map.Parts[^1].Id), net.Nothing, new PlanLimits(500)).Value!;
            var undone = PlanReplay.Out(net, net.Nothing, plan.Out.Select(step => step.Step));
            Assert.NotNull(undone);
            Assert.True(undone.Value.Contains(net.Find(OperationKind.Off, map.Parts[^1].Id)));
            Assert.Equal(0, PlanReplay.Back(net, undone.Value, plan.Back.Select(step => step.Step))!.Value.Count);
            foreach (var own in plan.Out.Concat(plan.Back).GroupBy(step => step.Who))
            {
                Assert.All(own.Zip(own.Skip(1)), pair => Assert.True(pair.First.EndMinutes <= pair.Second.StartMinutes + 1e-9));
            }

            Assert.Equal(plan.MakespanMinutes, plan.Out.Concat(plan.Back).Max(step => step.EndMinutes), 1e-9);
            Assert.True(plan.LowerBoundMinutes <= plan.MakespanMinutes + 1e-9 && plan.MakespanMinutes <= plan.OnePersonMinutes + 1e-9);
            Assert.Equal(plan.PersonMinutes, plan.Out.Concat(plan.Back).Sum(step => step.EndMinutes - step.StartMinutes), 1e-6);
        },
        iter: Tries.Of(150));

    [Fact]
    public void One_person_takes_what_the_plan_for_one_says() => RandomMaps.UpTo(9).Sample(
        map =>
        {
            var net = OperationNet.From(map);
            var goal = Goal.Renewing(map.Parts[^1].Id);
            var one = Planner.Make(net, goal, net.Nothing, PlanLimits.Usual).Plan!;
            Assert.Equal(one.MinutesP50, HandsPlanner.Make(net, goal, net.Nothing, PlanLimits.Usual).Value!.OnePersonMinutes, 1e-9);
        },
        iter: Tries.Of(100));

    [Fact]
    public void Proofs_that_need_the_machine_to_run_are_taken_when_both_are_through() => RandomMaps.UpTo(20).Sample(
        map =>
        {
            var net = OperationNet.From(map);
            var plan = HandsPlanner.Make(net, Goal.Renewing(map.Parts[^1].Id), net.Nothing, new PlanLimits(200)).Value!;
            var work = plan.Back.Where(step => step.Step.Kind != StepKind.Prove).Select(step => step.EndMinutes).DefaultIfEmpty(0).Max();
            Assert.All(
                plan.Back.Where(step => step.Step.Kind == StepKind.Prove && ProofNeeds.NeedsTheWholeMachine(net.Proofs[step.Step.Target])),
                proof => Assert.True(proof.StartMinutes >= work - 1e-9));
        },
        iter: Tries.Of(100));

    [Fact]
    public void What_one_person_is_refused_two_are_refused_in_the_same_words()
    {
        var net = OperationNet.From(new Map { Name = "lid", Title = "Lid", Parts = [new Part { Id = "lid", Name = "Lid" }] });
        var goal = Goal.Renewing("lit");
        Assert.Equal(
            Planner.Make(net, goal, net.Nothing, PlanLimits.Quick, TestContext.Current.CancellationToken).Refusal,
            HandsPlanner.Make(net, goal, net.Nothing, PlanLimits.Quick, TestContext.Current.CancellationToken).Sentence);
    }

    [Fact]
    public void A_standing_against_the_map_is_brought_home_by_two() => Gen.Select(RandomMaps.UpTo(12), Gen.Byte.Array[0, 8]).Sample(
        (map, bytes) =>
        {
            var net = OperationNet.From(map);
            var done = OperationSet.Of(net.Operations.Count, bytes.Select(b => b % net.Operations.Count));
            var plan = HandsPlanner.Make(net, Goal.Renewing(map.Parts[^1].Id), done, new PlanLimits(500)).Value!;
            var undone = PlanReplay.Out(net, done, plan.Out.Select(step => step.Step))!.Value;
            foreach (var x in plan.Back.Select(step => PlanReplay.Operation(net, step.Step)).OfType<int>())
            {
                Assert.True(net.CanReverse(undone, x));
                undone = undone.Without(x);
            }

            Assert.Equal(0, undone.Count);
            Assert.True(plan.LowerBoundMinutes <= plan.MakespanMinutes);
        },
        iter: Tries.Of(150));

    [Fact]
    public void A_wait_is_said_where_it_is_all_that_holds_somebody_up()
    {
        // Worked by hand: made safe in 2, then it drains for 12, and there is nothing else to do.
        var net = OperationNet.From(new Map
        {
            Name = "tank",
            Title = "Tank",
            SetUp = new SetUpMinutes(0, 0, 0),
            Supplies = [new Supply { Id = "water", Name = "Water", Kind = SupplyKind.Coolant, SafeMinutes = 2, RunsMinutes = 12 }],
            Parts = [new Part { Id = "lid", Name = "Lid", OffMinutes = 1 }],
            Joints = [new Joint { Id = "screw", Name = "Screw", Kind = JointKind.Screw, Holds = ["lid"], UndoMinutes = 1, Needs = ["water"] }],
        });
        var plan = HandsPlanner.Make(net, Goal.Renewing("lid"), net.Nothing, PlanLimits.Quick, TestContext.Current.CancellationToken).Value!;
        var waits = plan.Out.Concat(plan.Back).Where(step => step.Step.WaitFor is not null).ToList();
        Assert.Equal(("screw", 14.0, 12.0, "Water still drains"), waits.Select(step => (step.Step.Target, step.StartMinutes, step.Step.WaitMinutes, step.Step.WaitFor!)).Single());
        Assert.Equal(Planner.Make(net, Goal.Renewing("lid"), net.Nothing, PlanLimits.Quick, TestContext.Current.CancellationToken).Plan!.MinutesP50, plan.MakespanMinutes, 1e-9);
    }

    [Fact]
    public void Places_that_collide_are_read_from_the_map()
    {
        const string text = "format: 1\nname: a\ntitle: A\ncollide: [[above, front], [left, above]]\nparts:\n  - {id: lid, name: Lid}\n";
        var reading = MapReader.Read(text, "a.map.yaml");
        Assert.Empty(reading.Faults);
        var collisions = new Collisions(reading.Map!.Collide);
        Assert.True(collisions.Between(Position.Front, Position.Above) && collisions.Between(Position.Above, Position.Left));
        Assert.False(collisions.Between(Position.Front, Position.Left));
        // On any machine: one place, one person; nobody beside a machine that is up.
        Assert.True(collisions.Between(Position.Right, Position.Right) && collisions.Between(Position.Below, Position.Right));
    }
}
