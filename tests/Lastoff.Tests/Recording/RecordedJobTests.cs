using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Recording;
using Lastoff.Tests.Ledger;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Recording;

/// <summary>A job without a map: what was recorded, where it stands, and what the guards let pass. All machines are invented.</summary>
public class RecordedJobTests
{
    [Fact]
    public void Before_a_fluid_goes_in_again_what_holds_it_in_is_to_be_closed()
    {
        var bay = new Recorder().Say("gearbox lid off, six 10 mil bolts").Say("gearbox oil drained, 2 litres");
        Assert.Equal("2 L came out. Close first what holds it in.", bay.Job.Net.Map.Supplies.Single().Restore);
        Assert.Equal("4 L came out. Close first what holds it in. Let the air out at the highest place while it fills.", new Recorder().Say("drained the coolant, 4 litres").Job.Net.Map.Supplies.Single().Restore);
        Assert.Equal("Close first what holds it in.", new Recorder().Say("gearbox oil drained").Job.Net.Map.Supplies.Single().Restore);
    }

    [Fact]
    public void What_is_said_is_undone_and_off_and_lies_in_its_tray()
    {
        var standing = new Recorder().Say("battery disconnected").Say("four 10 mil bolts off the belt guard, tray 1").Say("belt guard off").Job.Standing;
        Assert.True(standing.IsOpen("supply:battery"));
        Assert.Equal(PartState.Off, standing.StateOf("part:belt-guard"));
        var set = Assert.Single(standing.InTrays);
        Assert.Equal(("1", 4, false), (set.Tray, set.Count, set.IsLeftOver));
        Assert.Equal("Belt guard bolts, 10 mm", standing.Net.Joints[set.Target].Name);
        Assert.Empty(standing.Questions);
    }

    [Fact]
    public void The_joint_of_a_part_that_is_off_cannot_be_made()
    {
        var bay = new Recorder().Say("belt guard off, four 10 mil bolts").Say("belt off");
        var joint = bay.Joint("Belt guard bolts, 10 mm");
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(new Moved(Move.JointMade, joint))!.Kind);
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(new Moved(Move.PartFitted, "part:belt-guard"))!.Kind);
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:belt")));
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:belt-guard")));
        Assert.Null(bay.Do(new Moved(Move.JointMade, joint)));
    }

    [Fact]
    public void What_is_left_over_is_asked_about_until_a_person_says_where_it_belongs()
    {
        var bay = new Recorder().Say("belt guard off, four 10 mil bolts, tray 1");
        var joint = bay.Joint("Belt guard bolts, 10 mm");
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:belt-guard")));
        Assert.Null(bay.Do(new Moved(Move.JointMade, joint) { Count = 3 }));
        var left = Assert.Single(bay.Job.Standing.InTrays);
        Assert.True(left.IsLeftOver);
        Assert.Equal(1, left.Count);
        var question = Assert.Single(bay.Job.Standing.Questions);
        Assert.Contains("1 left over", question.Sentence);
        Assert.Contains(OpenItems.Of(bay.Job.Standing), item => item.Kind == OpenKind.Question);
        Assert.Null(bay.Do(new Settled(question.Entry, "The thread was bad, a longer one went in")));
        Assert.Empty(bay.Job.Standing.InTrays);
    }

    [Fact]
    public void One_more_than_came_out_is_as_wrong_as_one_less()
    {
        var bay = new Recorder().Say("belt guard off, four 10 mil bolts, tray 1");
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:belt-guard")));
        Assert.Null(bay.Do(new Moved(Move.JointMade, bay.Joint("Belt guard bolts, 10 mm")) { Count = 5 }));
        Assert.Contains("1 came from elsewhere", Assert.Single(bay.Job.Standing.Questions).Sentence);
    }

    [Fact]
    public void What_broke_must_be_new_and_what_was_sealed_must_be_clean()
    {
        var bay = new Recorder().Say("water pump off, six 10 mil bolts, snapped, sealed");
        var joint = bay.Joint("Water pump bolts, 10 mm");
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:water-pump")));
        Assert.Contains("new one first", bay.Do(new Moved(Move.JointMade, joint))!.Sentence);
        Assert.Null(bay.Do(new RenewalFitted($"{joint}.new")));
        Assert.Contains("clean and dry", bay.Do(new Moved(Move.JointMade, joint))!.Sentence);
    }

    [Fact]
    public void What_is_drained_is_looked_at_for_leaks_before_the_handover()
    {
        var bay = new Recorder().Say("coolant drained, 5 litres");
        Assert.Null(bay.Do(new Agreed("An owner", "in person", "Find the leak")));
        Assert.Null(bay.Do(new Moved(Move.SupplyRestored, "supply:coolant")));
        Assert.Equal(OpenKind.Proof, Assert.Single(OpenItems.Of(bay.Job.Standing)).Kind);
        Assert.Null(bay.Do(new ProofRecorded("look:supply:coolant", Verdict.Good, "dry")));
        Assert.Null(bay.Do(new HandedOver("The owner", null)));
    }

    [Fact]
    public void A_line_taken_back_is_as_if_it_was_never_said_and_one_that_later_entries_stand_on_stays()
    {
        var bay = new Recorder().Say("belt guard off, four 10 mil bolts");
        var said = bay.Job.Entries[^1].Id;
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:belt-guard")));
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(new TakenBack(said))!.Kind);
        Assert.Null(bay.Do(new TakenBack(bay.Job.Entries[^1].Id)));
        Assert.Null(bay.Do(new TakenBack(said)));
        Assert.Empty(bay.Job.Net.Operations);
    }

    [Fact]
    public void What_comes_off_again_after_it_came_home_is_held_by_what_was_recorded_since()
    {
        var bay = new Recorder().Say("belt guard off, four 10 mil bolts");
        var first = bay.Joint("Belt guard bolts, 10 mm");
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:belt-guard")));
        Assert.Null(bay.Do(new Moved(Move.JointMade, first)));
        bay.Say("belt guard off again, two 10 mil bolts");
        var second = bay.Job.Net.Map.Joints.Single(joint => joint.Id != first && joint.Holds.Contains("part:belt-guard")).Id;
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(new Moved(Move.JointMade, second))!.Kind);
    }

    [Fact]
    public void What_comes_off_after_its_supply_came_back_is_guarded_all_the_same()
    {
        var bay = new Recorder().Say("battery disconnected").Say("horn off");
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:horn")));
        Assert.Null(bay.Do(new Moved(Move.SupplyRestored, "supply:battery")));
        bay.Say("starter off, two 13 mil bolts");
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(new Moved(Move.JointMade, bay.Joint("Starter bolts, 13 mm")))!.Kind);
    }

    [Fact]
    public void What_is_told_of_after_its_supply_came_back_stands_without_it()
    {
        var bay = new Recorder(devices: 2).Say("coolant drained");
        bay.Pass(0, 1);
        bay.Say("tank off");
        // A colleague who does not know of the tank fills it.
        Assert.NotNull(bay.Do(new Moved(Move.SupplyRestored, "supply:coolant")));
        Assert.Null(bay.Do(new Moved(Move.SupplyRestored, "supply:coolant"), device: 1));
        bay.Pass(1, 0);
        bay.Say("three 10 mil bolts off the tank");
        Assert.True(bay.Job.Net.Supported(bay.Job.Standing.Done).Equals(bay.Job.Standing.Done));
        Assert.True(bay.GoesHome());
    }

    [Fact]
    public void What_went_behind_another_part_the_first_time_is_guarded_without_it_the_second_time()
    {
        var bay = new Recorder().Say("belt guard off").Say("pump off");
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:pump")));
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:belt-guard")));
        bay.Say("pump off again, two 10 mil bolts");
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(new Moved(Move.JointMade, bay.Joint("Pump bolts, 10 mm")))!.Kind);
    }

    [Fact]
    public void A_joint_that_was_made_before_its_part_first_went_guards_nothing_and_the_others_do()
    {
        var bay = new Recorder().Say("belt guard plug unplugged");
        Assert.Null(bay.Do(new Moved(Move.JointMade, bay.Joint("Belt guard connector"))));
        bay.Say("belt guard off, five nuts");
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(new Moved(Move.JointMade, bay.Joint("Belt guard nuts")))!.Kind);
    }

    [Fact]
    public void A_joint_made_and_undone_again_holds_its_part_when_that_comes_off_again()
    {
        var bay = new Recorder().Say("belt guard off, four 10 mil bolts");
        var joint = bay.Joint("Belt guard bolts, 10 mm");
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:belt-guard")));
        Assert.Null(bay.Do(new Moved(Move.JointMade, joint)));
        Assert.Null(bay.Do(new Moved(Move.JointUndone, joint)));
        bay.Say("belt guard off");
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(new Moved(Move.JointMade, joint))!.Kind);
    }

    [Fact]
    public void What_a_second_device_says_of_a_joint_without_its_tray_takes_nothing_out_of_it()
    {
        var bay = new Recorder(2).Say("belt guard off, four 10 mil bolts, tray 1");
        var joint = bay.Joint("Belt guard bolts, 10 mm");
        bay.Pass(0, 1);
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:belt-guard")));
        bay.Pass(0, 1);
        Assert.Null(bay.Do(new Moved(Move.JointMade, joint) { Count = 3 }));
        Assert.Null(bay.Do(new Moved(Move.JointMade, joint) { Count = 4 }, device: 1));
        bay.Pass(1, 0);
        // One of the two is wrong, and no bolt vanishes for it.
        Assert.Equal(1, Assert.Single(bay.Job.Standing.InTrays).Count);
        Assert.Contains(bay.Job.Standing.Questions, question => question.Sentence.Contains("4 came out into tray 1 and 3 went in", StringComparison.Ordinal));
        Assert.DoesNotContain(bay.Job.Standing.Questions, question => question.Sentence.Contains("1 came out", StringComparison.Ordinal));
    }

    [Fact]
    public void A_part_laid_aside_leaves_made_what_was_undone_only_later()
    {
        var bay = new Recorder().Say("two 13 mil bolts off the pump").Say("pump laid aside").Say("pump pipe union 17 off the pump").Say("pump off");
        var part = bay.Job.Net.Parts["part:pump"];
        Assert.StartsWith("Pump pipe union", bay.Job.Net.Joints[Assert.Single(part.Aside!.Leaves)].Name);
        Assert.Empty(bay.Job.Standing.Questions);
        Assert.True(bay.GoesHome());
    }

    [Fact]
    public void A_word_about_what_was_in_the_way_moves_nothing()
    {
        var bay = new Recorder().Say("hose off").Say("bracket off").Say("hose in the way of the bracket");
        Assert.Equal(2, bay.Job.Standing.Done.Count);
        Assert.Empty(bay.Job.Standing.Questions);
    }

    [Fact]
    public void A_line_in_a_job_with_a_map_is_a_note()
    {
        var bay = new Bay(OperationNet.From(Demo.Map("orchard-sprayer-pump")), ["upper-diaphragm"], TimeSpan.Zero);
        var line = LineReader.English.Read("seat off");
        Assert.Null(bay.Do(0, new LineRecorded(line.Text, line.Readings)));
        Assert.Equal(0, bay.On(0).Standing.Done.Count);
        Assert.Empty(bay.On(0).Standing.Questions);
    }
}
