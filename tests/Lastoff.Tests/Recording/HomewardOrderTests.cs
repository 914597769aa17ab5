using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Tests.Recording;

/// <summary>In which order what was recorded goes home. All machines are invented.</summary>
public class HomewardOrderTests
{
    [Fact]
    public void What_was_drained_is_filled_only_when_what_came_out_after_it_is_home_even_where_no_joint_was_told_of()
    {
        var bay = new Recorder().Say("top cover off, six M8 bolts, tray 1").Say("oil drained, about 2 litres").Say("pulled the input shaft with a puller");
        var oil = Assert.Single(bay.Job.Net.Map.Supplies).Id;
        Assert.Contains("Input shaft", bay.Do(new Moved(Move.SupplyRestored, oil))!.Sentence);
        var back = bay.Back.Select(step => step.Name).ToList();
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
        Assert.Equal([JointKind.Hose, JointKind.Clamp], bay.Back.Where(step => step.Kind == StepKind.Make).Select(step => bay.Job.Net.Joints[step.Target].Kind));
    }

    [Theory]
    [InlineData("unhooked the crank rod, cotter pin in tray 1")]
    [InlineData("crank rod unhooked, two 10 mil bolts off the crank rod")]
    public void In_one_line_what_holds_a_thing_that_is_fast_by_itself_goes_home_after_it(string line)
    {
        var bay = new Recorder().Say(line);
        Assert.Equal("Crank rod", bay.Back.Where(step => step.Kind == StepKind.Make).Select(step => bay.Job.Net.Joints[step.Target].Name).First());
        Assert.Equal("Crank rod", OutAndHome.Of(bay.Job).Select(row => row.Act).OfType<Moved>().Select(moved => bay.Job.Net.Joints[moved.Target].Name).Last());
    }

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

        Assert.Equal([(StepKind.Fit, "Belt")], bay.Back.Select(step => (step.Kind, step.Name)));
        Assert.True(bay.GoesHome());
    }

    [Fact]
    public void A_part_that_was_lowered_and_came_off_later_goes_home_in_two()
    {
        var back = new Recorder().Say("tank lowered").Say("filler hose off the tank").Say("tank out").Back.Select(step => step.Kind);
        Assert.Equal([StepKind.Fit, StepKind.BringHome], back.Where(kind => kind is StepKind.Fit or StepKind.BringHome));
    }

    [Fact]
    public void The_lead_of_a_spark_plug_goes_on_after_the_fluids_and_the_battery_and_the_lock_after_it()
    {
        var back = new Recorder().Say("locked out").Say("battery disconnected").Say("spark plug lead off").Say("guard off, four 10s").Say("drained the oil, 1 litre").Say("pump out").Back;
        Assert.Equal(["Oil", "Spark plug lead", "Machine", "Battery"], back.Select(step => step.Name).Where(name => name is "Oil" or "Battery" or "Machine" or "Spark plug lead"));
    }

    [Fact]
    public void A_tap_is_opened_when_the_fluids_are_in_and_the_lead_of_a_spark_plug_goes_on_after_it()
    {
        var back = new Recorder().Say("spark plug cap off, tied back").Say("fuel tap shut").Say("water off at the stopcock").Say("oil drained, 14 mm plug, 0.8 litre").Say("pump out").Back;
        Assert.Equal(["Oil", "Fuel tap", "Water", "Spark plug cap"], back.Select(step => step.Name).Where(name => name is "Oil" or "Fuel tap" or "Water" or "Spark plug cap"));
        var told = new Recorder().Say("fuel tap shut").Say("oil drained, 14 mm plug, 0.8 litre").Say("plug lead off").Say("pump out").Back;
        Assert.Equal(["Oil", "Fuel tap", "Plug lead"], told.Select(step => step.Name).Where(name => name is "Oil" or "Fuel tap" or "Plug lead"));
    }

    [Fact]
    public void A_hose_that_is_off_and_hung_up_goes_home_once_and_its_clip_after_it()
    {
        var back = new Recorder().Say("suction hose off, one jubilee clip 7 mil, hung up with a cable tie").Back;
        Assert.Equal([(StepKind.Make, "Suction hose"), (StepKind.Make, "Suction hose jubilee clip, 7 mm")], back.Select(step => (step.Kind, step.Name)));
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
        Assert.Equal(["Input shaft", "Gearbox lid", "Gearbox lid bolts, 10 mm", "Gearbox oil", "Battery", "No leak: gearbox oil"], bay.Back.Select(step => step.Name));
        Assert.True(StepVerbs.IsFilled(bay.Job.Net, "supply:gearbox-oil"));
        Assert.False(StepVerbs.IsFilled(bay.Job.Net, bay.Back.Single(step => step.Name == "Battery").Target));
        // Who fills it before the lid is home may.
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:input-shaft")));
        Assert.Null(bay.Do(new Moved(Move.SupplyRestored, "supply:gearbox-oil")));
        Assert.True(bay.GoesHome());
    }

    [Fact]
    public void What_came_undone_before_a_part_came_off_is_made_after_that_is_home()
    {
        var bay = new Recorder().Say("belt guard off").Say("output shaft circlip off").Say("feed motor connector unplugged").Say("return spring unhooked").Say("bearing pulled with a puller").Say("four 13 mil bolts off the housing, tray 2").Say("seal out");
        Assert.Equal(["Seal", "Housing bolts, 13 mm", "Bearing", "Return spring", "Feed motor connector", "Output shaft circlip", "Belt guard"], bay.Back.Where(step => step.Kind is StepKind.Fit or StepKind.Make).Select(step => step.Name));
        // Who puts the circlip in sooner may.
        Assert.Null(bay.Do(new Moved(Move.JointMade, bay.Joint("Output shaft circlip"))));
    }

    [Theory]
    [InlineData("forgot to say: two shims behind the pulley")]
    [InlineData("forgot: two shims behind the pulley, tray 4")]
    public void What_was_forgotten_to_be_told_goes_home_before_what_it_sat_behind(string line) =>
        Assert.Equal(["Shims", "Pulley"], new Recorder().Say("pulley off").Say(line).Back.Where(step => step.Kind == StepKind.Fit).Select(step => step.Name));

    [Theory]
    [InlineData("two hydraulic hoses off, plugs in the ends, tied up")]
    [InlineData("two hydraulic hoses off|plugs in the ends, tied up")]
    public void Hoses_that_are_plugged_and_tied_up_go_home_once_and_their_plugs_come_out_before(string lines)
    {
        var bay = new Recorder();
        foreach (var line in lines.Split('|'))
        {
            bay.Say(line);
        }

        Assert.Equal([StepKind.Uncover, StepKind.Make], bay.Back.Select(step => step.Kind).Where(kind => kind is StepKind.Uncover or StepKind.Make));
        Assert.DoesNotContain(bay.Job.Net.Map.Parts, part => part.Name == "Ends");
        Assert.True(bay.GoesHome());
    }

    [Fact]
    public void The_mains_plug_comes_home_by_its_own_name_and_last()
    {
        var bay = new Recorder().Say("mains plug pulled").Say("four bolts off the lid").Say("lid off");
        var supply = Assert.Single(bay.Job.Net.Map.Supplies);
        Assert.Equal(("Mains plug", SupplyKind.HighVoltage), (supply.Name, supply.Kind));
        Assert.Equal(supply.Id, bay.Back[^1].Target);
    }
}
