using CsCheck;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Planning.TwoHands;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning;

/// <summary>A vacuum hold shows what leaks while the system is still empty: the joints first, then the hold, then the filling.</summary>
public class VacuumHoldOrderTests
{
    [Fact]
    public void The_light_van_holds_its_vacuum_before_it_is_filled_and_its_mix_is_read_after()
    {
        var net = OperationNet.From(Demo.Map("light-van"));
        var plan = Planner.Make(net, Goal.Renewing("transfer-pipe"), net.Nothing, PlanLimits.Quick, TestContext.Current.CancellationToken).Plan!;
        var back = plan.Back.ToList();
        var filled = back.FindIndex(step => step.Kind == StepKind.Restore && step.Target == "coolant");
        Assert.InRange(back.FindIndex(step => step.Target == "coolant-vacuum"), 0, filled - 1);
        Assert.True(back.FindIndex(step => step.Target == "coolant-mix") > filled);
        Assert.True(back.FindIndex(step => step.Target == "coolant-pressure") > filled);
    }

    [Fact]
    public void On_any_map_and_for_two_people_too_the_hold_comes_between_the_joints_and_the_filling() => RandomMaps.UpTo(14).Sample(
        map =>
        {
            var net = OperationNet.From(map with
            {
                Proofs = [.. map.Supplies.Select(supply => new Proof($"{supply.Id}-hold", "Hold", ProofKind.VacuumHold, supply.Id, 2, null, 0))],
            });
            InOrder(net, [.. Planner.Make(net, Goal.Renewing(map.Parts[^1].Id), net.Nothing, new PlanLimits(200)).Plan!.Back]);
            var two = HandsPlanner.Make(net, Goal.Renewing(map.Parts[^1].Id), net.Nothing, new PlanLimits(200)).Value!;
            InOrder(net, [.. two.Back.OrderBy(step => step.StartMinutes).Select(step => step.Step)]);
        },
        iter: 100);

    private static void InOrder(OperationNet net, List<PlanStep> back)
    {
        foreach (var (at, hold) in back.Index().Where(step => step.Item.Kind == StepKind.Prove))
        {
            var supply = net.Proofs[hold.Target].For;
            Assert.DoesNotContain(back[..at], step => step.Kind == StepKind.Restore && step.Target == supply);
            Assert.DoesNotContain(back[at..], step => step.Kind == StepKind.Make && net.Joints[step.Target].Needs.Contains(supply));
        }
    }
}
