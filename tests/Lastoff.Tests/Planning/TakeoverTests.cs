using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning;

/// <summary>The plan that is there at once, and when a better one takes its place.</summary>
public class TakeoverTests
{
    private static readonly OperationNet Net = OperationNet.From(Demo.Map("light-van"));
    private static readonly Goal Pipe = Goal.Renewing("transfer-pipe");
    private static readonly Act[] Opening = [new JobOpened("light-van", "Invented", "It drips", "The pipe", ["transfer-pipe"], []), new Agreed("The owner", "in person", "Go on")];
    private static readonly Standing Agreed = Stands(Opening);

    private static readonly Plan First = Planner.Make(Agreed, Pipe, PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
    private static readonly Plan Searched = Planner.Make(Agreed, Pipe, PlanLimits.Quick, TestContext.Current.CancellationToken).Plan!;

    [Fact]
    public void A_shorter_plan_is_better_and_a_longer_one_is_not()
    {
        Assert.True(Searched.MinutesP50 < First.MinutesP50);
        Assert.True(Takeover.IsBetter(Agreed, First, Searched));
        Assert.False(Takeover.IsBetter(Agreed, Searched, First));
        Assert.False(Takeover.IsBetter(Agreed, First, First));
    }

    [Fact]
    public void Of_two_equally_long_plans_the_one_that_more_is_known_about_is_better()
    {
        var proven = First with { LowerBoundMinutes = First.MinutesP50 };
        Assert.True(Takeover.IsBetter(Agreed, First, proven));
        Assert.False(Takeover.IsBetter(Agreed, proven, First));
    }

    [Fact]
    public void A_plan_for_another_goal_or_without_what_was_found_does_not_take_over()
    {
        var other = Planner.Make(Net, Goal.Renewing("drive-belt"), Net.Nothing, PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        Assert.False(Takeover.IsBetter(Agreed, First, other));
        var joint = First.Out.First(step => step.Kind == StepKind.Undo).Target;
        var stuck = Stands([.. Opening, new JointStuck(joint, 20, IsClosed: false, "rounded off")]);
        Assert.False(Takeover.IsBetter(stuck, First, Searched));
        Assert.True(Takeover.IsBetter(stuck, First, Searched with { Stuck = stuck.Stuck }));
    }

    [Fact]
    public void The_step_in_hand_stays()
    {
        var inHand = NextStep.Of(Agreed, First)!;
        Assert.True(Takeover.LeavesInHand(Agreed, null, Searched));
        Assert.True(Takeover.LeavesInHand(Agreed, NextStep.Of(Agreed, Searched), Searched));
        var turned = First with { Out = [.. First.Out.Skip(1), inHand] };
        Assert.False(Takeover.LeavesInHand(Agreed, inHand, turned));
        Assert.False(Takeover.LeavesInHand(Agreed, inHand with { Way = inHand.Way + 1 }, First));
    }

    [Fact]
    public void The_plan_at_once_is_legal_for_every_part_and_its_bound_holds()
    {
        foreach (var part in Net.Map.Parts)
        {
            var goal = Goal.Renewing(part.Id);
            var first = Planner.Make(Net, goal, Net.Nothing, PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
            var searched = Planner.Make(Net, goal, Net.Nothing, new PlanLimits(2000), TestContext.Current.CancellationToken).Plan!;
            var undone = PlanReplay.Out(Net, Net.Nothing, first.Out);
            Assert.True(undone is { } all && all.Contains(Net.Find(OperationKind.Off, part.Id)) && PlanReplay.Back(Net, all, first.Back) is { Count: 0 }, part.Id);
            Assert.True(first.LowerBoundMinutes <= searched.MinutesP50 + 1e-9 && searched.LowerBoundMinutes <= first.MinutesP50 + 1e-9, part.Id);
            Assert.Equal(first.ProvenOptimal, first.Unproven is null);
        }
    }

    [Fact]
    public void A_joint_that_only_takes_longer_leaves_the_plan_at_hand_as_it_is_though_the_device_alone_finds_a_longer_one()
    {
        var stuck = Stands([.. Opening, new JointStuck(Searched.Out.First(step => step.Kind == StepKind.Undo).Target, 20, false, "rusted")]);
        var goal = GoalLeft.Of(stuck);
        var plan = Planner.Remake(stuck, goal, Searched, PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        Assert.Equal(Searched.MinutesP50 + 20, plan.MinutesP50, 1e-6);
        Assert.True(plan.MinutesP50 < Planner.Make(stuck, goal, PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!.MinutesP50);
        Assert.Equal("The way stays the same.", PlanChange.Between("it is stuck", Agreed, Searched, stuck, plan).Way);
    }

    private static Standing Stands(IEnumerable<Act> acts)
    {
        var job = Job.From(Net, []);
        foreach (var act in acts)
        {
            job = job.With(job.Decide(act, new Pen("device", "Tester", DateTimeOffset.UnixEpoch, new byte[10])).Entry!);
        }

        return job.Standing;
    }
}
