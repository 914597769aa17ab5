using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Ledger;

namespace Lastoff.Tests.Planning;

public class ProofsLeftTests
{
    [Fact]
    public void Who_takes_over_when_all_is_home_is_led_through_the_proofs()
    {
        var net = OperationNet.From(new Map
        {
            Name = "bench",
            Title = "Invented bench",
            Parts = [new Part { Id = "pump", Name = "Pump" }],
            Proofs = [new Proof("drips", "No drips", ProofKind.LeakLook, "pump", 2, null, 0)],
        });
        var bay = new Bay(net, ["pump"], TimeSpan.Zero);
        foreach (var act in new Act[] { new Agreed("The owner", "in person", "Renew the pump"), new Moved(Move.PartOff, "pump"), new RenewalFitted(net.NewPart("pump").Id), new Moved(Move.PartFitted, "pump") })
        {
            Assert.Null(bay.Do(0, act));
        }

        var standing = bay.On(0).Standing;
        var plan = Planner.Make(standing, GoalLeft.Of(standing), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        Assert.Equal((StepKind.Prove, "drips"), NextStep.Of(standing, plan) is { } step ? (step.Kind, step.Target) : default);
        Assert.True(NextStep.Fits(standing, plan));
        Assert.Null(bay.Do(0, new ProofRecorded("drips", Verdict.Good, "dry")));
        Assert.Null(NextStep.Of(bay.On(0).Standing, plan));
        Assert.True(NextStep.Fits(bay.On(0).Standing, plan));
    }
}
