using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Ledger;

public class BackInTests
{
    private static readonly OperationNet Net = OperationNet.From(Demo.Map("orchard-sprayer-pump"));

    [Fact]
    public void A_new_part_that_comes_off_once_more_goes_on_again_and_its_seal_does_not()
    {
        var bay = new Bay(Net, ["upper-head"], TimeSpan.Zero);
        var plan = Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        while (NextStep.Of(bay.On(0).Standing, plan) is { } step && (step.Kind, step.Target) != (StepKind.Make, "head-bolts"))
        {
            Assert.Null(bay.Do(0, step));
        }

        var standing = bay.On(0).Standing;
        var (part, seals) = (Net.NewPart("upper-head").Id, standing.RenewalsOwed("upper-head").Where(renewal => renewal.Kind != RenewalKind.Part).Select(renewal => renewal.Id).ToList());
        Assert.NotEmpty(seals);
        Assert.All([part, .. seals], renewal => Assert.Contains(renewal, standing.Renewed));
        Assert.Null(bay.Do(0, new Moved(Move.PartOff, "upper-head")));
        Assert.Contains(part, bay.On(0).Standing.Renewed);
        Assert.Empty(bay.On(0).Standing.Renewed.Intersect(seals));
        // One more new one may go in all the same, and is counted once.
        Assert.Equal(1, bay.On(0).Standing.PutIn[part]);
        Assert.Null(bay.Do(0, new RenewalFitted(part)));
        Assert.Equal(2, bay.On(0).Standing.PutIn[part]);
        Assert.Equal(RefusalKind.Already, bay.Do(0, new RenewalFitted(part))!.Kind);
    }

    [Fact]
    public void After_a_bad_proof_a_way_is_planned_to_where_it_fails_with_the_way_home_and_the_proof_again()
    {
        var ct = TestContext.Current.CancellationToken;
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Go on")));
        var plan = Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.AtOnce, ct).Plan!;
        while (NextStep.Of(bay.On(0).Standing, plan) is { } step && step.Kind != StepKind.Prove)
        {
            Assert.Null(bay.Do(0, step));
        }

        var proof = Net.Proofs["head-drips"];
        Assert.Null(bay.Do(0, new ProofRecorded(proof.Id, Verdict.Bad, "It drips")));
        var standing = bay.On(0).Standing;
        var places = BackIn.Places(standing, proof);
        Assert.All(places, joint => Assert.Null(Guards.Check(standing, new BackIn(joint.Id, proof.Id))));
        var about = places.Select(joint => BackIn.IsAbout(proof, joint)).ToList();
        Assert.Contains(true, about);
        Assert.Equal(about.OrderDescending(), about);

        Assert.Null(bay.Do(0, new BackIn("suction-hose", proof.Id)));
        standing = bay.On(0).Standing;
        Assert.NotNull(standing.Agreed);
        Assert.Contains(OpenItems.Of(standing), item => item.Kind == OpenKind.Goal && item.Target == "suction-hose");
        Assert.False(NextStep.Fits(standing, plan));
        var again = Planner.Remake(standing, GoalLeft.Of(standing), plan, PlanLimits.AtOnce, ct).Plan!;
        var done = new List<(StepKind, string)>();
        while (NextStep.Of(bay.On(0).Standing, again) is { } step && (step.Kind, step.Target) != (StepKind.Prove, proof.Id))
        {
            // The line has to be let down before the hose may come off, with its caution.
            Assert.True(step.Kind != StepKind.MakeSafe || step.Caution is not null);
            done.Add((step.Kind, step.Target));
            if (step.Target == "suction-clamp")
            {
                // The one that went in is used up: another has to be here, and nobody has said that it is.
                Assert.Equal(ItemState.Missing, Needed.Of(bay.On(0).Standing, again).Single(item => item.Name == "Worm-drive clamp 45 mm" + Needed.OnceMore).State);
            }

            Assert.Null(bay.Do(0, step));
        }

        // What failed comes before all other proofs, and nobody reaches behind the shield while the shaft may turn.
        Assert.DoesNotContain(done, step => step.Item1 == StepKind.Prove);
        Assert.Contains((StepKind.Renew, "suction-clamp"), done);
        Assert.True(done.IndexOf((StepKind.MakeSafe, "line-pressure")) < done.IndexOf((StepKind.Undo, "shield-knobs")));
        Assert.True(done.IndexOf((StepKind.Make, "shield-knobs")) < done.IndexOf((StepKind.Restore, "line-pressure")));

        Assert.Contains((StepKind.Undo, "suction-hose"), done);
        Assert.Contains((StepKind.Make, "suction-hose"), done);
        Assert.DoesNotContain((StepKind.TakeOff, "upper-head"), done);
        Assert.Contains(OpenItems.Of(bay.On(0).Standing), item => item.Kind == OpenKind.Proof && item.Target == proof.Id);
    }

    [Fact]
    public void What_somebody_else_has_open_already_is_not_asked_for_once_more()
    {
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero, TimeSpan.Zero);
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Go on")));
        bay.Pass(0, 1);
        Assert.Null(bay.Do(0, new BackIn("shield-knobs", "head-drips")));
        Assert.Null(bay.Do(0, new Moved(Move.SupplySafe, "line-pressure")));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "shield-knobs")));
        Assert.Null(bay.Do(1, new BackIn("shield-knobs", "head-drips")));
        bay.Pass(1, 0);
        Assert.Empty(bay.On(0).Standing.ToUndoAgain);
    }

    [Fact]
    public void What_is_undone_already_or_not_on_the_map_is_no_place_to_go_back_in_at()
    {
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        Assert.Equal(RefusalKind.Unknown, Guards.Check(bay.On(0).Standing, new BackIn("no-such", "head-drips"))!.Kind);
        Assert.Equal(RefusalKind.Unknown, Guards.Check(bay.On(0).Standing, new BackIn("suction-hose", "no-such"))!.Kind);
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Go on")));
        Assert.Null(bay.Do(0, new Moved(Move.SupplySafe, "line-pressure")));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "shield-knobs")));
        Assert.Equal(RefusalKind.Already, Guards.Check(bay.On(0).Standing, new BackIn("shield-knobs", "head-drips"))!.Kind);
    }
}
