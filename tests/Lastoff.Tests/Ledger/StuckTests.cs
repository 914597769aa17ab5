using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Tests.Ledger;

public class StuckTests
{
    private static readonly OperationNet Net = OperationNet.From(new Map
    {
        Name = "bench",
        Title = "Invented bench",
        Parts = [new Part { Id = "pump", Name = "Pump" }],
        Joints =
        [
            new Joint
            {
                Id = "bolt", Name = "Bolt", Kind = JointKind.Bolt, Holds = ["pump"], At = Position.Left,
                Reach = new Reach([], [], [new ReachWay([], [], null, null, 1, 0), new ReachWay([], [], Position.Below, new Tool("long swivel", "hex 13 mm"), 2, 0)]),
            },
        ],
    });

    private static Bay Opened() => new(Net, ["pump"], TimeSpan.Zero);

    private static JointStuck? About(Bay bay, int way)
    {
        var operation = Net.Operations[Net.Find(OperationKind.Undo, "bolt")];
        return Stuck.About(bay.On(0).Standing.Stuck, operation, operation.Ways[way]);
    }

    [Fact]
    public void The_last_word_about_a_way_counts()
    {
        var bay = Opened();
        Assert.Null(bay.Do(0, new JointStuck("bolt", 15, false, "rusted")));
        Assert.Equal((15, 15), (About(bay, 0)!.ExtraMinutes, About(bay, 1)!.ExtraMinutes));
        Assert.Null(bay.Do(0, new JointStuck("bolt", 0, true, "", "long swivel, hex 13 mm", Position.Below)));
        Assert.Equal((false, true), (About(bay, 0)!.IsClosed, About(bay, 1)!.IsClosed));
        Assert.Null(bay.Do(0, new JointStuck("bolt", 25, false, "rounded off")));
        Assert.Equal("“Bolt” is stuck, 25 min more (rounded off)", Stuck.Words(Net, Assert.Single(bay.On(0).Standing.Stuck)));
    }

    [Fact]
    public void Undone_it_is_not_stuck_any_more_and_what_is_taken_back_was_never_found()
    {
        var bay = Opened();
        Assert.Null(bay.Do(0, new JointStuck("bolt", 15, false, "")));
        Assert.Null(bay.Do(0, new TakenBack(bay.On(0).Entries[^1].Id)));
        Assert.Empty(bay.On(0).Standing.Stuck);
        Assert.Null(bay.Do(0, new JointStuck("bolt", 0, true, "")));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "bolt")));
        Assert.Empty(bay.On(0).Standing.Stuck);
        Assert.Equal("“Bolt” is undone: it is not stuck any more.", bay.Do(0, new JointStuck("bolt", 15, false, ""))!.Sentence);
    }

    [Fact]
    public void What_broke_waits_for_a_new_one_on_the_way_home()
    {
        var bay = Opened();
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Renew the pump")));
        Assert.Null(bay.Do(0, new JointStuck("bolt", 0, false, "its head sheared off") { Broke = true }));
        Assert.Equal("“Bolt” broke (its head sheared off)", Stuck.Words(Net, Assert.Single(bay.On(0).Standing.Stuck)));
        var plan = Planner.Make(bay.On(0).Standing, GoalLeft.Of(bay.On(0).Standing), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!;
        Assert.Equal((NeededKind.New, 1.0, ItemState.Missing), Needed.Of(bay.On(0).Standing, plan).Where(item => item.Name == "One new bolt: Bolt").Select(item => (item.Kind, item.Count, item.State)).Single());

        foreach (var step in plan.Out)
        {
            Assert.Null(bay.Do(0, step));
        }

        Assert.Null(bay.Do(0, new RenewalFitted("pump.new")));
        Assert.Null(bay.Do(0, new Moved(Move.PartFitted, "pump")));
        Assert.Equal((StepKind.Renew, "bolt.new"), NextStep.Of(bay.On(0).Standing, plan) is { } next ? (next.Kind, next.Target) : default);
        Assert.Equal("“One new bolt: Bolt” is not in yet: fit the new one first.", bay.Do(0, new Moved(Move.JointMade, "bolt"))?.Sentence);
        Assert.Contains(OpenItems.Of(bay.On(0).Standing), open => open is { Kind: OpenKind.Renewal, Target: "bolt.new" });
        Assert.Null(bay.Do(0, new ItemTold("One new bolt: Bolt", ItemState.Here, "")));
        Assert.Null(bay.Do(0, new RenewalFitted("bolt.new")));
        Assert.Null(bay.Do(0, new Moved(Move.JointMade, "bolt")));
        Assert.Empty(OpenItems.Of(bay.On(0).Standing));
    }

    [Fact]
    public void Of_six_of_which_one_broke_five_come_out_whole_and_six_go_in()
    {
        var net = OperationNet.From(new Map
        {
            Name = "bench",
            Title = "Invented bench",
            Parts = [new Part { Id = "pump", Name = "Pump" }],
            Joints = [new Joint { Id = "bolts", Name = "Pump bolts", Kind = JointKind.Bolt, Count = 6, Thread = "M8", Holds = ["pump"] }],
        });
        var bay = new Bay(net, ["pump"], TimeSpan.Zero);
        Assert.Equal(6, Whole());
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Renew the pump")));
        Assert.Null(bay.Do(0, new JointStuck("bolts", 20, false, "") { Broke = true }));
        Assert.Equal(5, Whole());
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "bolts") { Tray = "2", Count = Whole() }));
        Assert.Equal(1, Trays.NewWith(bay.On(0).Standing, Assert.Single(bay.On(0).Standing.InTrays)));
        Assert.Equal("One new bolt M8: Pump bolts", net.NameToBuy(Assert.Single(bay.On(0).Standing.NewPieces)));
        Assert.Null(bay.Do(0, new Moved(Move.PartOff, "pump")));
        Assert.Null(bay.Do(0, new RenewalFitted("pump.new")));
        Assert.Null(bay.Do(0, new Moved(Move.PartFitted, "pump")));
        Assert.Null(bay.Do(0, new RenewalFitted("bolts.new")));
        Assert.Null(bay.Do(0, new Moved(Move.JointMade, "bolts") { Count = 6 }));
        Assert.Empty(bay.On(0).Standing.Questions);
        Assert.Equal(6, Whole());

        int Whole() => Trays.WholeOnes(bay.On(0).Standing, net.Joints["bolts"]);
    }

    [Fact]
    public void What_was_found_at_a_joint_is_known_when_it_goes_home()
    {
        var bay = Opened();
        Assert.Null(bay.Do(0, new JointStuck("bolt", 15, false, "rusted")));
        Assert.Null(bay.Do(0, new Noted("Thread torn at its end", "bolt")));
        Assert.Null(bay.Do(0, new Noted("A dent", "pump")));
        Assert.Null(bay.Do(0, new Noted("Wrong bolt", "bolt")));
        Assert.Null(bay.Do(0, new TakenBack(bay.On(0).Entries[^1].Id)));
        Assert.Null(bay.Do(0, new Moved(Move.JointUndone, "bolt")));
        Assert.Equal([new JointStuck("bolt", 15, false, "rusted"), new Noted("Thread torn at its end", "bolt")], FoundThere.Of(bay.On(0).Entries, "bolt"));
    }

    [Theory]
    [InlineData("bolt", 0, false, "Write down how many minutes more “Bolt” takes, or that it cannot be undone.")]
    [InlineData("bolt", -1, false, "“Bolt”: the minutes more must lie between 0 and a week.")]
    [InlineData("bolt", double.NaN, false, "“Bolt”: the minutes more must lie between 0 and a week.")]
    [InlineData("nut", 5, false, "The map has no joint “nut”; check the name, or the map this job was opened with.")]
    public void What_says_nothing_is_refused_in_one_sentence(string joint, double minutes, bool closed, string sentence) =>
        Assert.Equal(sentence, Opened().Do(0, new JointStuck(joint, minutes, closed, ""))!.Sentence);

    [Fact]
    public void An_entry_reads_back_as_it_was_written()
    {
        foreach (var act in new[] { new JointStuck("bolt", 12.5, false, "rusted"), new JointStuck("bolt", 0, true, "", "long swivel, hex 13 mm", Position.Below), new JointStuck("bolt", 0, false, "") { Broke = true } })
        {
            var bay = Opened();
            Assert.Null(bay.Do(0, act));
            Assert.Equal(act, ActKinds.Read(bay.On(0).Entries[^1], out _));
        }
    }
}
