using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>What a recorded joint is called, what it holds and what is heeded at it. All machines are invented.</summary>
public class RecordedJointTests
{
    [Fact]
    public void A_drain_plug_holds_no_part() => Assert.Empty(new Recorder().Say("drain plug out, 17 mil").Say("guard off").Job.Net.Map.Joints.Single().Holds);

    [Theory]
    [InlineData("gear oil drained, 14 mm plug, 0.8 litre into the blue pan")]
    [InlineData("17 mm plug out")]
    public void A_plug_that_is_screwed_in_holds_nothing_that_comes_off_after_it(string line) =>
        Assert.Empty(Assert.Single(new Recorder().Say(line).Say("guard off").Job.Net.Map.Joints).Holds);

    [Theory]
    [InlineData("plug lead pulled off", "Plug lead")]
    [InlineData("plug cap off", "Plug cap")]
    [InlineData("spark plug lead off", "Spark plug lead")]
    [InlineData("coil lead off", "Coil lead")]
    public void The_lead_of_a_spark_plug_is_called_as_it_was_told_and_holds_nothing_that_comes_off_later(string line, string name)
    {
        var map = new Recorder().Say(line).Say("guard off").Job.Net.Map;
        Assert.Equal(name, Assert.Single(map.Joints).Name);
        Assert.DoesNotContain("part:guard", map.Joints[0].Holds);
    }

    [Theory]
    [InlineData("plug lead pulled off", true)]
    [InlineData("front plug lead off", true)]
    [InlineData("plug lead off the engine", true)]
    [InlineData("coil lead off", true)]
    [InlineData("spark plug wires off", true)]
    [InlineData("pulled the plug cap", true)]
    [InlineData("sensor plug cap off", false)]
    [InlineData("sensor plug lead off", false)]
    [InlineData("pulled the sensor plug lead and tied it back", false)]
    [InlineData("alternator lead off", false)]
    public void The_lead_of_a_spark_plug_is_known_by_its_name(string line, bool isOfSpark)
    {
        var map = new Recorder().Say(line).Say("drained the oil, 1 litre").Job.Net.Map;
        Assert.Equal(isOfSpark, map.Homeward.Any(home => home.Target == Assert.Single(map.Joints).Id && home.After.Contains("supply:oil")));
    }

    [Theory]
    [InlineData("old bracket bolt stub drilled out, thread M8 cleaned up with a tap")]
    [InlineData("stub of the broken bolt drilled out, thread still good")]
    [InlineData("broken bolt drilled out")]
    [InlineData("got the snapped bracket bolt out with heat")]
    public void What_is_left_of_a_bolt_that_broke_never_goes_back(string line)
    {
        var bay = new Recorder().Say("bracket off, four 13 mil bolts, top left one sheared off").Say(line);
        Assert.Equal(["Bracket bolts, 13 mm"], bay.Job.Net.Map.Joints.Select(joint => joint.Name));
        Assert.Equal(("Bracket bolt", 1), (Assert.Single(bay.Job.Net.Map.Renewals).Name, bay.Job.Net.Map.Renewals[0].Count));
    }

    [Theory]
    [InlineData("broken lid bolt drilled out")]
    [InlineData("another broken bolt drilled out")]
    [InlineData("bolt snapped")]
    public void One_more_that_broke_is_no_note(string line) =>
        Assert.Equal(2, new Recorder().Say("bracket off, four 13 mil bolts, one sheared off").Say(line).Job.Net.Map.Joints.Count);

    [Theory]
    [InlineData("return spring unhooked, long hook to the top", "Return spring")]
    [InlineData("two straps undone", "Straps")]
    [InlineData("choke cable unhooked", "Choke cable")]
    public void What_is_fast_by_itself_is_no_bolt(string line, string name)
    {
        var joint = Assert.Single(new Recorder().Say(line).Job.Net.Map.Joints);
        Assert.Equal((name, JointKind.Clip), (joint.Name, joint.Kind));
    }

    [Theory]
    [InlineData("centre nut off, left hand thread, tray 5", 1)]
    [InlineData("centre nuts off, tray 5", null)]
    public void One_that_is_told_as_one_is_one_in_its_tray(string line, int? count) => Assert.Equal(count, Assert.Single(new Recorder().Say(line).Job.Standing.InTrays).Count);

    [Theory]
    [InlineData("breather hose off, two hose clamps")]
    [InlineData("two hose clamps off the breather hose, then breather hose off")]
    public void The_clamps_of_a_hose_are_called_once_by_it(string line) => Assert.Contains(new Recorder().Say(line).Job.Net.Map.Joints, joint => joint.Name == "Breather hose clamps");

    [Theory]
    [InlineData("centre nut off, left hand thread", "Left-hand thread: undo it clockwise, do it up anticlockwise.")]
    [InlineData("return spring unhooked", "A spring under tension flies when it slips: hold it fast, ease it slowly, face out of its line; eye protection.")]
    public void What_is_heeded_is_what_the_way_back_asks_for(string line, string caution) => Assert.Equal(caution, Assert.Single(new Recorder().Say(line).Job.Net.Map.Joints).Caution);

    [Fact]
    public void Whoever_connects_a_hose_looks_into_its_ends() =>
        Assert.Contains("Nothing may be left in its ends", new Recorder().Say("hydraulic hose off").Back.Single(step => step.Kind == StepKind.Make).Caution, StringComparison.Ordinal);

    [Theory]
    [InlineData("drain plug out, 17 mil")]
    [InlineData("hydraulic hose off, capped")]
    [InlineData("main plug unplugged")]
    public void What_a_joint_holds_that_nobody_told_of_is_not_guessed_at(string line)
    {
        var bay = new Recorder().Say(line);
        Assert.DoesNotContain(bay.Job.Net.Map.Parts, part => part.Name.Contains("not recorded", StringComparison.Ordinal));
        Assert.True(bay.GoesHome());
    }


    [Fact]
    public void A_joint_whose_part_nobody_named_holds_what_comes_away_next()
    {
        var job = new Recorder().Say("two 13 bolts, tray 2").Say("top hose off").Say("fan shroud off").Job;
        Assert.All(job.Net.Map.Joints, joint => Assert.Equal(["part:fan-shroud"], joint.Holds));
    }

    [Fact]
    public void A_set_shows_its_length_and_differing_lengths_are_told_on_the_way_back()
    {
        var bay = new Recorder().Say("water pump off, three M8x40 bolts, tray 2").Say("two M8x60 bolts off the water pump, tray 3").Say("cover off, nine 10 mil bolts, two longer ones at the top");
        var joints = bay.Job.Net.Map.Joints;
        Assert.Equal(["Water pump bolts, M8, 40 mm long", "Water pump bolts, M8, 60 mm long", "Cover bolts, 10 mm"], joints.Select(joint => joint.Name));
        Assert.Contains("others of the same part 60 mm", joints[0].Caution, StringComparison.Ordinal);
        Assert.Contains("two longer ones at the top", joints[2].Caution, StringComparison.Ordinal);
        Assert.Contains(bay.Job.Standing.InTrays, set => set.Tray == "2" && bay.Job.Net.Joints[set.Target].Name.EndsWith("40 mm long", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("seat off, four 13 mil bolts", "seat bolts 20 N·m")]
    [InlineData("four seat bolts out, 13 mil", "seat bolts torqued to 20 nm")]
    [InlineData("filter housing off, six bolts", "housing bolts want 20 Nm")]
    [InlineData("case drain line off, union nut 1 1/4in", "case drain 20 N·m")]
    [InlineData("feed hose off, union nut 30 mil", "union nut of feed hose 20 nm")]
    public void A_torque_told_of_what_is_undone_is_that_of_the_joint_and_no_other_bolt_comes_of_it(string line, string torque)
    {
        var before = new Recorder().Say(line).Job.Net.Map.Joints.Count;
        var joints = new Recorder().Say(line).Say(torque).Job.Net.Map.Joints;
        Assert.Equal(before, joints.Count);
        Assert.Equal(20, Assert.Single(joints, joint => joint.Torque is not null).Torque!.Value.NewtonMetres, 6);
    }

    [Theory]
    [InlineData("two seat bolts off, 20 nm")]
    [InlineData("five seat bolts 20 nm")]
    [InlineData("seat bolts 20 nm, tray 3")]
    [InlineData("four bolts 20 nm")]
    [InlineData("four M10 seat bolts 20 nm")]
    public void Bolts_that_come_off_with_their_torque_or_are_others_are_bolts_of_their_own(string line) =>
        Assert.Equal(2, new Recorder().Say("seat off, four 13 mil bolts").Say(line).Job.Net.Map.Joints.Count);

    [Fact]
    public void Which_of_two_joints_of_one_name_a_torque_is_of_is_not_guessed() =>
        Assert.All(new Recorder().Say("seat off, two 13 mil bolts, two 10 mil bolts").Say("seat bolts 20 nm").Job.Net.Map.Joints, joint => Assert.Null(joint.Torque));

    [Theory]
    [InlineData("seat bolts seized solid, 200 Nm")]
    [InlineData("seat bolts don't need 200 Nm")]
    public void What_is_said_of_a_torque_otherwise_is_not_how_tight_it_goes_back(string line)
    {
        var recorder = new Recorder().Say("seat off, four 13 mil bolts");
        // “Is it out by now?” No.
        Assert.Null(recorder.Do(new LineRecorded(line, [.. LineReader.Read(line, "en").Readings.Select(reading => reading.Question?.Answered(reading, 1) ?? reading)])));
        Assert.All(recorder.Job.Net.Map.Joints, joint => Assert.Null(joint.Torque));
    }

    [Fact]
    public void How_much_came_out_is_told_of_it_wherever_it_is_told_and_the_first_word_stays()
    {
        Assert.Equal(14.2, Out(new Recorder().Say("oil drained").Say("measured it, 14.2 l of hyd oil")));
        var twice = new Recorder().Say("oil drained, 10 litres").Say("oil drained, 2 litres");
        Assert.Equal(10, Out(twice));
        Assert.StartsWith("10 L came out", twice.Job.Net.Map.Supplies.Single().Restore, StringComparison.Ordinal);

        static double? Out(Recorder recorder) => OutAndHome.Of(recorder.Job).Select(row => row.Act).OfType<Moved>().Single(moved => moved.Move == Move.SupplySafe).Amount_L;
    }

    [Theory]
    [InlineData("oil drained", "measured it, 14.2 l of hyd oil", 1)]
    [InlineData("engine oil drained", "2 l of gear oil", 2)]
    [InlineData("oil drained, 10 l", "2 l of gear oil", 2)]
    public void How_much_it_was_is_of_what_was_drained_and_another_fluid_is_another(string line, string amount, int fluids)
    {
        var supplies = new Recorder().Say(line).Say(amount).Job.Net.Map.Supplies;
        Assert.Equal(fluids, supplies.Count);
        Assert.Contains("L came out", supplies[^1].Restore, StringComparison.Ordinal);
    }
}
