using Lastoff.Core.Ledger;
using Lastoff.Core.Planning;

namespace Lastoff.Tests.Recording;

/// <summary>A key, a dowel, a spring: small parts that are told of by their tray alone.</summary>
public class LaidInTrayTests
{
    [Fact]
    public void A_key_lies_in_its_tray_and_goes_home_before_the_sprocket_over_it()
    {
        var bay = new Recorder().Say("sprocket off, key in tray 2");
        var set = Assert.Single(bay.Job.Standing.InTrays);
        Assert.Equal(("part:key", "2", null), (set.Target, set.Tray, set.Count));
        var back = Planner.Make(bay.Job.Standing, new Goal([], []), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!.Back;
        Assert.Equal(["Key", "Sprocket"], back.Where(step => step.Kind == StepKind.Fit).Select(step => step.Name));
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:key")));
        Assert.Empty(bay.Job.Standing.InTrays);
        Assert.True(bay.GoesHome());
    }

    [Fact]
    public void Told_on_a_line_of_its_own_it_is_the_key_too()
    {
        var bay = new Recorder().Say("sprocket off").Say("key in tray 2").Say("two dowels in tray 3");
        Assert.Equal([("part:key", "2", null), ("part:dowels", "3", (int?)2)], bay.Job.Standing.InTrays.Select(set => (set.Target, set.Tray, set.Count)));
        Assert.True(bay.GoesHome());
        Assert.Empty(bay.Job.Standing.InTrays);
    }
}
