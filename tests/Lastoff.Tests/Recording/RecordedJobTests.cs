using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Recording;
using Lastoff.Tests.Ledger;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Recording;

/// <summary>A job without a map: what was recorded, where it stands, and the way back. All machines are invented.</summary>
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
        var joint = Joint(bay.Job, "Belt guard bolts, 10 mm");
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(new Moved(Move.JointMade, joint))!.Kind);
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(new Moved(Move.PartFitted, "part:belt-guard"))!.Kind);
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:belt")));
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:belt-guard")));
        Assert.Null(bay.Do(new Moved(Move.JointMade, joint)));
    }

    [Fact]
    public void What_was_drained_is_filled_only_when_what_came_out_after_it_is_home_even_where_no_joint_was_told_of()
    {
        var bay = new Recorder().Say("top cover off, six M8 bolts, tray 1").Say("oil drained, about 2 litres").Say("pulled the input shaft with a puller");
        var oil = Assert.Single(bay.Job.Net.Map.Supplies).Id;
        Assert.Contains("Input shaft", bay.Do(new Moved(Move.SupplyRestored, oil))!.Sentence);
        var back = Planner.Make(bay.Job.Standing, new Goal([], []), PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!.Back.Select(step => step.Name).ToList();
        Assert.InRange(back.FindIndex(name => name.Contains("shaft", StringComparison.Ordinal)), 0, back.FindIndex(name => name.Contains("oil", StringComparison.OrdinalIgnoreCase)) - 1);
        Assert.Null(bay.Do(new Moved(Move.PartFitted, bay.Job.Net.Map.Parts.Single(part => part.Name == "Input shaft").Id)));
        Assert.Null(bay.Do(new Moved(Move.SupplyRestored, oil)));
    }

    [Theory]
    [InlineData("hose off, clamp too")]
    [InlineData("pulled the hose and its clamp")]
    [InlineData("top hose off, two 8 mil clamps")]
    [InlineData("clamp off, hose off")]
    public void In_one_line_what_clamps_a_hose_came_off_before_it_and_goes_home_after_it(string line)
    {
        var bay = new Recorder().Say(line);
        Assert.Equal([JointKind.Clamp, JointKind.Hose], OutAndHome.Of(bay.Job).Select(row => row.Act).OfType<Moved>().Select(moved => bay.Job.Net.Joints[moved.Target].Kind));
        Assert.Equal([JointKind.Hose, JointKind.Clamp], Back(bay).Where(step => step.Kind == StepKind.Make).Select(step => bay.Job.Net.Joints[step.Target].Kind));
    }

    [Theory]
    [InlineData("unhooked the crank rod, cotter pin in tray 1")]
    [InlineData("crank rod unhooked, two 10 mil bolts off the crank rod")]
    public void In_one_line_what_holds_a_thing_that_is_fast_by_itself_goes_home_after_it(string line)
    {
        var bay = new Recorder().Say(line);
        Assert.Equal("Crank rod", Back(bay).Where(step => step.Kind == StepKind.Make).Select(step => bay.Job.Net.Joints[step.Target].Name).First());
        Assert.Equal("Crank rod", OutAndHome.Of(bay.Job).Select(row => row.Act).OfType<Moved>().Select(moved => bay.Job.Net.Joints[moved.Target].Name).Last());
    }

    [Fact]
    public void A_drain_plug_holds_no_part() => Assert.Empty(new Recorder().Say("drain plug out, 17 mil").Say("guard off").Job.Net.Map.Joints.Single().Holds);

    [Theory]
    [InlineData("belt off and hung aside")]
    [InlineData("belt off|belt hung aside")]
    [InlineData("belt swung aside|belt off")]
    public void What_is_off_and_hangs_comes_home_once(string lines)
    {
        var bay = new Recorder();
        foreach (var line in lines.Split('|'))
        {
            bay.Say(line);
        }

        Assert.Equal([(StepKind.Fit, "Belt")], Back(bay).Select(step => (step.Kind, step.Name)));
        Assert.True(bay.GoesHome());
    }

    [Fact]
    public void A_part_that_was_lowered_and_came_off_later_goes_home_in_two()
    {
        var back = Back(new Recorder().Say("tank lowered").Say("filler hose off the tank").Say("tank out")).Select(step => step.Kind);
        Assert.Equal([StepKind.Fit, StepKind.BringHome], back.Where(kind => kind is StepKind.Fit or StepKind.BringHome));
    }

    [Fact]
    public void The_lead_of_a_spark_plug_goes_on_after_the_fluids_and_the_battery_and_the_lock_after_it()
    {
        var back = Back(new Recorder().Say("locked out").Say("battery disconnected").Say("spark plug lead off").Say("guard off, four 10s").Say("drained the oil, 1 litre").Say("pump out"));
        Assert.Equal(["Oil", "Spark plug lead", "Machine", "Battery"], back.Select(step => step.Name).Where(name => name is "Oil" or "Battery" or "Machine" or "Spark plug lead"));
    }

    [Fact]
    public void A_tap_is_opened_when_the_fluids_are_in_and_the_lead_of_a_spark_plug_goes_on_after_it()
    {
        var back = Back(new Recorder().Say("spark plug cap off, tied back").Say("fuel tap shut").Say("water off at the stopcock").Say("oil drained, 14 mm plug, 0.8 litre").Say("pump out"));
        Assert.Equal(["Oil", "Fuel tap", "Water", "Spark plug cap"], back.Select(step => step.Name).Where(name => name is "Oil" or "Fuel tap" or "Water" or "Spark plug cap"));
        var told = Back(new Recorder().Say("fuel tap shut").Say("oil drained, 14 mm plug, 0.8 litre").Say("plug lead off").Say("pump out"));
        Assert.Equal(["Oil", "Fuel tap", "Plug lead"], told.Select(step => step.Name).Where(name => name is "Oil" or "Fuel tap" or "Plug lead"));
    }

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

    [Fact]
    public void A_hose_that_is_off_and_hung_up_goes_home_once_and_its_clip_after_it()
    {
        var back = Back(new Recorder().Say("suction hose off, one jubilee clip 7 mil, hung up with a cable tie"));
        Assert.Equal([(StepKind.Make, "Suction hose"), (StepKind.Make, "Suction hose jubilee clip, 7 mm")], back.Select(step => (step.Kind, step.Name)));
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

    [Fact]
    public void In_a_line_that_tells_several_things_in_order_they_stay_in_it()
    {
        var bay = new Recorder().Say("hose off, then the bracket bolts");
        Assert.Equal([JointKind.Hose, JointKind.Bolt], OutAndHome.Of(bay.Job).Select(row => row.Act).OfType<Moved>().Select(moved => bay.Job.Net.Joints[moved.Target].Kind));
        Assert.Empty(bay.Job.Net.Map.Homeward);
    }

    [Fact]
    public void A_fluid_goes_in_after_everything_is_home_then_the_battery_and_the_proof_when_it_can_run()
    {
        var bay = new Recorder().Say("gearbox lid off, six 10 mil bolts").Say("battery disconnected").Say("gearbox oil drained, 2 litres").Say("input shaft off");
        Assert.Equal(["Input shaft", "Gearbox lid", "Gearbox lid bolts, 10 mm", "Gearbox oil", "Battery", "No leak: gearbox oil"], Back(bay).Select(step => step.Name));
        Assert.True(StepVerbs.IsFilled(bay.Job.Net, "supply:gearbox-oil"));
        Assert.False(StepVerbs.IsFilled(bay.Job.Net, Back(bay).Single(step => step.Name == "Battery").Target));
        // Who fills it before the lid is home may.
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:input-shaft")));
        Assert.Null(bay.Do(new Moved(Move.SupplyRestored, "supply:gearbox-oil")));
        Assert.True(bay.GoesHome());
    }

    [Fact]
    public void What_came_undone_before_a_part_came_off_is_made_after_that_is_home()
    {
        var bay = new Recorder().Say("belt guard off").Say("output shaft circlip off").Say("feed motor connector unplugged").Say("return spring unhooked").Say("bearing pulled with a puller").Say("four 13 mil bolts off the housing, tray 2").Say("seal out");
        Assert.Equal(["Seal", "Housing bolts, 13 mm", "Bearing", "Return spring", "Feed motor connector", "Output shaft circlip", "Belt guard"], Back(bay).Where(step => step.Kind is StepKind.Fit or StepKind.Make).Select(step => step.Name));
        // Who puts the circlip in sooner may.
        Assert.Null(bay.Do(new Moved(Move.JointMade, Joint(bay.Job, "Output shaft circlip"))));
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
        Assert.Contains("Nothing may be left in its ends", Back(new Recorder().Say("hydraulic hose off")).Single(step => step.Kind == StepKind.Make).Caution, StringComparison.Ordinal);

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

    private static IReadOnlyList<PlanStep> Back(Recorder bay) => Planner.Make(bay.Job.Standing, new Goal([], []), PlanLimits.Usual, TestContext.Current.CancellationToken).Plan!.Back;

    [Fact]
    public void A_joint_whose_part_nobody_named_holds_what_comes_away_next()
    {
        var job = new Recorder().Say("two 13 bolts, tray 2").Say("top hose off").Say("fan shroud off").Job;
        Assert.All(job.Net.Map.Joints, joint => Assert.Equal(["part:fan-shroud"], joint.Holds));
    }

    [Fact]
    public void What_is_left_over_is_asked_about_until_a_person_says_where_it_belongs()
    {
        var bay = new Recorder().Say("belt guard off, four 10 mil bolts, tray 1");
        var joint = Joint(bay.Job, "Belt guard bolts, 10 mm");
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
        Assert.Null(bay.Do(new Moved(Move.JointMade, Joint(bay.Job, "Belt guard bolts, 10 mm")) { Count = 5 }));
        Assert.Contains("1 came from elsewhere", Assert.Single(bay.Job.Standing.Questions).Sentence);
    }

    [Fact]
    public void What_broke_must_be_new_and_what_was_sealed_must_be_clean()
    {
        var bay = new Recorder().Say("water pump off, six 10 mil bolts, snapped, sealed");
        var joint = Joint(bay.Job, "Water pump bolts, 10 mm");
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
        var first = Joint(bay.Job, "Belt guard bolts, 10 mm");
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
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(new Moved(Move.JointMade, Joint(bay.Job, "Starter bolts, 13 mm")))!.Kind);
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
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(new Moved(Move.JointMade, Joint(bay.Job, "Pump bolts, 10 mm")))!.Kind);
    }

    [Fact]
    public void A_joint_that_was_made_before_its_part_first_went_guards_nothing_and_the_others_do()
    {
        var bay = new Recorder().Say("belt guard plug unplugged");
        Assert.Null(bay.Do(new Moved(Move.JointMade, Joint(bay.Job, "Belt guard connector"))));
        bay.Say("belt guard off, five nuts");
        Assert.Equal(RefusalKind.OutOfOrder, bay.Do(new Moved(Move.JointMade, Joint(bay.Job, "Belt guard nuts")))!.Kind);
    }

    [Fact]
    public void A_joint_made_and_undone_again_holds_its_part_when_that_comes_off_again()
    {
        var bay = new Recorder().Say("belt guard off, four 10 mil bolts");
        var joint = Joint(bay.Job, "Belt guard bolts, 10 mm");
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
        var joint = Joint(bay.Job, "Belt guard bolts, 10 mm");
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
    public void A_set_shows_its_length_and_differing_lengths_are_told_on_the_way_back()
    {
        var bay = new Recorder().Say("water pump off, three M8x40 bolts, tray 2").Say("two M8x60 bolts off the water pump, tray 3").Say("cover off, nine 10 mil bolts, two longer ones at the top");
        var joints = bay.Job.Net.Map.Joints;
        Assert.Equal(["Water pump bolts, M8, 40 mm long", "Water pump bolts, M8, 60 mm long", "Cover bolts, 10 mm"], joints.Select(joint => joint.Name));
        Assert.Contains("others of the same part 60 mm", joints[0].Caution, StringComparison.Ordinal);
        Assert.Contains("two longer ones at the top", joints[2].Caution, StringComparison.Ordinal);
        Assert.Contains(bay.Job.Standing.InTrays, set => set.Tray == "2" && bay.Job.Net.Joints[set.Target].Name.EndsWith("40 mm long", StringComparison.Ordinal));
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

    private static string Joint(Job job, string name) => job.Net.Map.Joints.Single(joint => joint.Name == name).Id;
}
