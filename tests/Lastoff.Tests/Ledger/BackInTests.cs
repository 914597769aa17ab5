using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Ledger;

public class BackInTests
{
    private static readonly OperationNet Net = OperationNet.From(Demo.Map("orchard-sprayer-pump"));

    [Fact]
    public void After_a_bad_proof_what_it_is_about_may_come_undone_again_first_and_the_proof_is_owed_after()
    {
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Go on")));
        var plan = Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        while (NextStep.Of(bay.On(0).Standing, plan) is { } step && step.Kind != StepKind.Prove)
        {
            Assert.Null(bay.Do(0, step));
        }

        var proof = Net.Proofs[NextStep.Of(bay.On(0).Standing, plan)!.Target];
        Assert.Null(bay.Do(0, new ProofRecorded(proof.Id, Verdict.Bad, "It drips")));
        var standing = bay.On(0).Standing;
        var back = BackIn.Of(standing, proof);
        Assert.All(back, moved => Assert.Null(Guards.Check(standing, moved)));
        Assert.All(back, moved => Assert.False(moved.Move.IsBack()));
        var worked = back.Select(moved => standing.WasDisturbed(moved.Move.Operation(), moved.Target) || moved.Target == proof.For).ToList();
        Assert.Contains(true, worked);
        Assert.Equal(worked.OrderDescending(), worked);

        Assert.Null(bay.Do(0, back[0]));
        Assert.Contains(OpenItems.Of(bay.On(0).Standing), item => item.Kind == OpenKind.Proof && item.Target == proof.Id);
        Assert.True(bay.On(0).Standing.IsDone(back[0].Move.Operation(), back[0].Target));
    }
}
