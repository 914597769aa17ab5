using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Ledger;

public class TraysTests
{
    private static readonly OperationNet Net = OperationNet.From(Demo.Map("orchard-sprayer-pump"));

    [Fact]
    public void What_was_left_over_once_is_settled_when_all_of_them_went_in_later()
    {
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        GoesInAndOut(bay, 2, 1);
        Assert.EndsWith("1 left over. Find the place, or say why.", Assert.Single(Counts(bay)), StringComparison.Ordinal);
        // As many as came out, and still one less than it has.
        GoesInAndOut(bay, 1, 1);
        Assert.Single(Counts(bay));
        GoesInAndOut(bay, 2, 2);
        Assert.Empty(Counts(bay));
    }

    [Fact]
    public void One_that_was_left_over_and_goes_in_later_came_from_nowhere_else()
    {
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        GoesInAndOut(bay, 2, 1);
        Assert.Single(Counts(bay));
        // One came out and two went in: all that it has.
        GoesInAndOut(bay, 1, 2);
        Assert.Empty(Counts(bay));
    }

    [Fact]
    public void Where_more_went_in_than_came_out_is_settled_too_when_all_of_them_went_in_later()
    {
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        GoesInAndOut(bay, 1, 2);
        Assert.EndsWith("1 came from elsewhere. Look, and say from where.", Assert.Single(Counts(bay)), StringComparison.Ordinal);
        GoesInAndOut(bay, 2, 2);
        Assert.Empty(Counts(bay));
    }

    [Fact]
    public void Gone_back_in_each_group_goes_to_its_first_tray_until_another_is_told()
    {
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        Assert.Null(TrayTold.Last(bay.On(0)));
        Assert.Null(TrayTold.Of(bay.On(0), "regulator-bolts"));
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Go on")));
        // Captive, they go into none.
        Assert.Null(bay.Do(0, new Moved(Move.SupplySafe, "line-pressure")));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "shield-knobs")));
        Assert.Null(bay.Do(0, new Moved(Move.PartOff, "side-shield")));
        Assert.Null(TrayTold.Last(bay.On(0)));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "regulator-bolts") { Tray = "2", Count = 2 }));
        Assert.Equal("2", TrayTold.Last(bay.On(0)));
        Assert.Null(bay.Do(0, new Moved(Move.JointMade, "regulator-bolts") { Count = 2 }));
        Assert.Null(bay.Do(0, new BackIn("regulator-bolts", "head-drips")));
        Assert.Null(TrayTold.Last(bay.On(0)));
        Assert.Equal("2", TrayTold.Of(bay.On(0), "regulator-bolts"));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "regulator-bolts") { Tray = "5", Count = 2 }));
        Assert.Equal(("5", "5"), (TrayTold.Last(bay.On(0)), TrayTold.Of(bay.On(0), "regulator-bolts")));
    }

    [Fact]
    public void A_set_is_never_marked_for_the_tray_that_another_lies_in()
    {
        var bay = new Bay(Net, ["upper-diaphragm"], TimeSpan.Zero);
        Assert.Null(TrayTold.For(bay.On(0), "head-bolts", null));
        Assert.Equal("", TrayTold.For(bay.On(0), "head-bolts", ""));
        Assert.Equal("2", TrayTold.For(bay.On(0), "head-bolts", "2"));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "regulator-bolts", "It was tried") { Tray = "2", Count = 2 }));
        Assert.Equal("3", TrayTold.For(bay.On(0), "head-bolts", "2"));
        Assert.Equal("2", TrayTold.For(bay.On(0), "regulator-bolts", "6"));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "head-bolts", "It was tried") { Tray = "6", Count = 6 }));
        // Behind the last comes the first.
        Assert.Equal("1", TrayTold.For(bay.On(0), "diaphragm-screw", "6"));
        Assert.Null(bay.Do(0, new Moved(Move.JointMade, "regulator-bolts", "It was tried") { Count = 2 }));
        Assert.Equal("2", TrayTold.For(bay.On(0), "diaphragm-screw", "2"));
    }

    [Fact]
    public void The_tray_that_a_map_knows_is_marked_where_nothing_else_lies_in_it()
    {
        var net = OperationNet.From(Demo.Map("orchard-sprayer-pump") with { Joints = [.. Demo.Map("orchard-sprayer-pump").Joints.Select(joint => joint.Id == "head-bolts" ? joint with { Tray = "4" } : joint)] });
        var bay = new Bay(net, ["upper-diaphragm"], TimeSpan.Zero);
        Assert.Equal("4", TrayTold.For(bay.On(0), "head-bolts", null));
        Assert.Equal("4", TrayTold.For(bay.On(0), "head-bolts", "2"));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "regulator-bolts", "It was tried") { Tray = "4", Count = 2 }));
        Assert.Equal("5", TrayTold.For(bay.On(0), "head-bolts", "4"));
    }

    private static IEnumerable<string> Counts(Bay bay) => bay.On(0).Standing.Questions.Where(question => question.CountOf == "regulator-bolts").Select(question => question.Sentence);

    private static void GoesInAndOut(Bay bay, int cameOut, int wentIn)
    {
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "regulator-bolts", "It was tried") { Tray = "2", Count = cameOut }));
        Assert.Null(bay.Do(0, new Moved(Move.JointMade, "regulator-bolts", "It was tried") { Count = wentIn }));
    }
}
