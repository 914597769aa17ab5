using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

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
        foreach (var act in new[] { new JointStuck("bolt", 12.5, false, "rusted"), new JointStuck("bolt", 0, true, "", "long swivel, hex 13 mm", Position.Below) })
        {
            var bay = Opened();
            Assert.Null(bay.Do(0, act));
            Assert.Equal(act, ActKinds.Read(bay.On(0).Entries[^1], out _));
        }
    }
}
