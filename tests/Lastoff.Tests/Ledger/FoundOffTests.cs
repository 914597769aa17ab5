using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Ledger;

public class FoundOffTests
{
    private const string Why = "it was off already when it was got to";

    private static readonly OperationNet Net = OperationNet.From(Demo.Map("orchard-sprayer-pump"));

    [Fact]
    public void A_part_that_was_off_already_is_on_record_as_found_and_has_to_go_home()
    {
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        Assert.True(FoundOff.CanBe(bay.On(0).Standing, "side-shield"));
        foreach (var act in FoundOff.Acts(bay.On(0).Standing, "side-shield", Why))
        {
            Assert.Null(bay.Do(0, act));
        }

        var standing = bay.On(0).Standing;
        Assert.Empty(standing.Questions);
        Assert.False(FoundOff.CanBe(standing, "side-shield"));
        Assert.False(FoundOff.CanBe(standing, "shield-knobs"));
        Assert.Equal(2, standing.AgainstTheMap.Count(sentence => sentence.EndsWith($"against the map: {Why}.", StringComparison.Ordinal)));
        Assert.Equal(["shield-knobs", "side-shield"], OpenItems.Of(standing).Where(item => item.Kind is OpenKind.Joint or OpenKind.Part).Select(item => item.Target));

        var plan = Planner.Make(standing, GoalLeft.Of(standing), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        Assert.DoesNotContain(plan.Out, step => step.Target is "side-shield" or "shield-knobs");
        Assert.Contains(plan.Back, step => step is { Kind: StepKind.Fit, Target: "side-shield" });
        Assert.Contains(plan.Back, step => step is { Kind: StepKind.Make, Target: "shield-knobs" });
    }

    [Fact]
    public void A_joint_that_was_off_already_takes_no_part_with_it()
    {
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        Assert.Equal([new Moved(Move.JointUndone, "shield-knobs") { Despite = Why }], FoundOff.Acts(bay.On(0).Standing, "shield-knobs", Why));
        Assert.False(FoundOff.CanBe(bay.On(0).Standing, "line-pressure"));
    }
}
