using Lastoff.Core.Learning;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Recording;
using Lastoff.Tests.Ledger;
using Lastoff.Tests.Recording;
using static Lastoff.Tests.Learning.MapFromLines;

namespace Lastoff.Tests.Learning;

/// <summary>What was put in new, closed, put in a tray or written down the last time is known the next, and one of a set that broke is told of at the set. All machines are invented.</summary>
public class KnownNextTimeTests
{
    [Theory]
    [InlineData("renew gasket")]
    [InlineData("gasket to be renewed")]
    [InlineData("old gasket scraped off")]
    [InlineData("gasket scraped off, needs a new one")]
    public void A_gasket_is_in_the_plan_of_what_it_lies_under(string line)
    {
        var map = Read(Said("pump off, two 13 bolts", line));
        Assert.DoesNotContain(map.Parts, part => part.Name == "Gasket");
        var needed = Plan(map, "pump").Renewals;
        Assert.Equal([("Gasket", RenewalKind.Seal, "pump"), ("new: Pump", RenewalKind.Part, "pump")], needed.Select(renewal => (renewal.Name, renewal.Kind, renewal.For)));
    }

    [Fact]
    public void Told_twice_it_is_one_and_of_two_recordings_one_is_enough()
    {
        var map = Learned(Said("pump off, two 13 bolts", "old gasket scraped off", "renew gasket"), Said("pump off, two 13 bolts"));
        Assert.Contains("for: pump, count: 1}   # new in 1 of 2", map.Yaml, StringComparison.Ordinal);
        Assert.Equal(1, Assert.Single(Read(map).Renewals).Count);
    }

    [Fact]
    public void What_was_the_fault_itself_is_new_only_where_it_is_the_goal()
    {
        var map = Read(Said("pump off, two 13 bolts", "bearing off", "pump is shot"));
        Assert.Empty(map.Renewals);
        Assert.Contains(Plan(map, "pump").Renewals, renewal => renewal.Name == "new: Pump");
    }

    [Fact]
    public void A_seal_that_came_out_by_itself_is_new_each_time_and_as_a_goal_once()
    {
        var map = Read(Said("housing off, two 13 bolts", "shaft seal pulled out, torn", "shaft seal to be renewed", "bearing off"));
        Assert.Equal("shaft-seal", Assert.Single(map.Renewals).For);
        Assert.Contains(Plan(map, "bearing").Renewals, renewal => renewal.For == "shaft-seal");
        Assert.Single(Plan(map, "shaft-seal").Renewals);
    }

    [Fact]
    public void What_was_called_old_goes_in_new() => Assert.Equal("filter", Assert.Single(Read(Said("cover off", "old filter out")).Renewals).For);

    [Theory]
    [InlineData("five 13 mil bolts out of the pump, tray 2", "one pump bolt snapped", 6)]
    [InlineData("one of the six pump bolts snapped", "five pump bolts out, tray 2", 6)]
    [InlineData("six 13 mil bolts out of the pump", "one of them snapped", 6)]
    [InlineData("six 13 mil pump bolts out, one snapped", "bracket off", 6)]
    public void One_that_snapped_is_of_the_set(string first, string then, int count)
    {
        var map = Read(Said(first, then, "pump off"));
        var bolts = Assert.Single(map.Joints);
        Assert.Equal(("Pump bolts", count), (bolts.Name, bolts.Count));
        Assert.StartsWith("Broke in 1 of 1: “", bolts.Caution, StringComparison.Ordinal);
        Assert.Empty(map.Renewals);
    }

    [Fact]
    public void A_broken_one_that_was_told_of_before_the_set_is_one_more()
    {
        var bay = new Recorder();
        Assert.Null(bay.Do(new LineRecorded("pump bolt snapped", [new Reading { Deed = Deed.Wanted, Part = "Pump bolt", Count = 1, Broken = true }])));
        var bolts = Assert.Single(Read(Learned(bay.Say("five pump bolts out").Say("pump off"))).Joints);
        Assert.Equal(6, bolts.Count);
    }

    [Fact]
    public void Another_bolt_that_snapped_stays_by_itself() =>
        Assert.Equal(["Pump bolts", "Bracket bolt"], Read(Said("five 13 mil bolts out of the pump", "one bracket bolt snapped", "pump off", "bracket off")).Joints.Select(joint => joint.Name));

    [Fact]
    public void Where_more_went_in_than_came_out_so_many_are_of_the_set()
    {
        var bay = Said("pump off, five 13 mil bolts, tray 2");
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:pump")));
        Assert.Null(bay.Do(new Moved(Move.JointMade, bay.Job.Net.Map.Joints[0].Id) { Count = 6 }));
        Assert.Equal(6, Assert.Single(Read(Learned(bay)).Joints).Count);
    }

    [Theory]
    [InlineData("rag in the pump port", "old gasket scraped off")]
    [InlineData("old gasket scraped off", "rag in the pump port")]
    [InlineData("bracket off", "rag in the pump port")]
    public void Every_cover_that_was_put_in_is_needed_again(string one, string other)
    {
        var plan = Plan(Read(Said("bottom hose off the pump", "bung in the bottom hose", "pump off, two 13 bolts", one, other)), "pump");
        Assert.Equal(["Bottom hose: bung", "Pump port: rag"], plan.Out.Where(step => step.Kind == StepKind.Cover).Select(step => step.Name));
    }

    [Fact]
    public void Of_what_came_out_and_went_in_the_greater_is_what_it_holds_and_no_other_figure_is_said()
    {
        var bay = Said("cover off", "coolant drained, about 8 litres, blue can");
        Assert.Null(bay.Do(new Moved(Move.SupplyRestored, "supply:coolant", "tried", 7.5)));
        var coolant = Assert.Single(Read(Learned(bay)).Supplies);
        Assert.Equal(8, coolant.Amount_L);
        var note = Assert.Single(coolant.Notes);
        Assert.Contains("blue can", note, StringComparison.Ordinal);
        Assert.DoesNotContain("litres", note, StringComparison.Ordinal);
    }

    [Fact]
    public void The_map_knows_where_a_set_lay_the_last_time()
    {
        var map = Read(Learned(Said("pump off, two 13 bolts, tray 2"), Said("pump off, two 13 bolts, bag 3"), Said("pump off, two 13 bolts")));
        Assert.Equal("bag 3", Assert.Single(map.Joints).Tray);
    }

    [Fact]
    public void What_was_written_down_for_the_next_time_stands_at_the_thing_or_before_the_job_begins()
    {
        var bay = Said("pump off, two 13 bolts");
        Assert.Null(bay.Do(new Learned("Bring a second lamp.")));
        Assert.Null(bay.Do(new Learned("Oil it the day before", "part:pump")));
        var map = Read(bay);
        Assert.Equal(["Bring a second lamp."], map.Lessons);
        Assert.Equal(["Learned before: “Oil it the day before”."], Assert.Single(map.Parts).Notes);
    }

    [Theory]
    [InlineData("spark plug lead off", true)]
    [InlineData("plug lead pulled off", true)]
    [InlineData("ignition lead off the spark plug", true)]
    [InlineData("plug lead pulled off", false)]
    public void The_lead_of_a_spark_plug_comes_off_first_and_goes_on_last(string line, bool isFirst)
    {
        var plan = Plan(Read(isFirst ? Said(line, "oil drained", "pump off, two 13 bolts") : Said("oil drained", line, "pump off, two 13 bolts")), "pump");
        Assert.Equal([StepKind.MakeSafe, StepKind.MakeSafe, StepKind.Undo, StepKind.TakeOff], plan.Out.Select(step => step.Kind));
        Assert.Contains("lead", plan.Out[0].Name, StringComparison.OrdinalIgnoreCase);
        Assert.Equal([plan.Out[1].Target, plan.Out[0].Target], plan.Back.Where(step => step.Kind == StepKind.Restore).Select(step => step.Target));
    }

    [Theory]
    [InlineData("ignition lead off")]
    [InlineData("spark plug cap off, tied back")]
    [InlineData("HT lead off")]
    [InlineData("plug lead pulled off")]
    public void So_does_any_other_lead_of_the_ignition(string line) =>
        Assert.Equal([SupplyKind.Heat, SupplyKind.Oil], Read(Said(line, "oil drained", "pump off, two 13 bolts")).Supplies.Select(supply => supply.Kind));

    [Fact]
    public void What_was_drained_comes_before_a_part_that_no_joint_holds() =>
        Assert.Equal([StepKind.MakeSafe, StepKind.TakeOff], Plan(Read(Said("oil drained", "sump off")), "sump").Out.Select(step => step.Kind));

    [Fact]
    public void A_hose_both_undone_and_laid_aside_leaves_its_port_open_once()
    {
        var map = Read(Said("suction hose off", "suction hose tied up", "stuffed a clean rag in the suction port", "pump off, two 13 bolts"));
        Assert.Contains(map.Parts, part => part.Name == "Suction hose");
        Assert.Contains(map.Joints, joint => joint.Name == "Suction hose");
        Assert.Equal("Suction port", Assert.Single(map.Openings).Name);
    }

    [Fact]
    public void So_does_one_that_had_two_names_in_two_recordings()
    {
        var one = RecordedStrip.Of("one", Said("suction hose off", "suction hose tied up", "rag in the suction port", "pressure hose undone at the pump", "red cap in the pressure port", "pump off, two 13 bolts").Job.Entries);
        var two = RecordedStrip.Of("two", Said("suction pipe off", "suction pipe tied up", "bung in the suction port", "bung in the pump inlet", "pressure pipe undone at the pump", "blanking plug in the pressure port", "pump off, two 13 bolts").Job.Entries);
        var merged = new Recordings([one, two]).Merged("Suction pipe", "Suction hose")!.Merged("Pressure pipe", "Pressure hose")!;
        var map = Read(merged.Learn("m", "M", []).Or(sentence => throw new InvalidOperationException(sentence)));
        Assert.Equal(["Pressure port", "Pump inlet", "Suction port"], map.Openings.Select(opening => opening.Name).Order(StringComparer.Ordinal));
    }

    // Common practice, no source: what runs out of an open hose is caught there, and nobody drains for it.
    [Theory]
    [InlineData("top hose off, about half a litre ran out")]
    [InlineData("top hose off", "about half a litre ran out")]
    [InlineData("top hose off, half a litre came out")]
    public void What_ran_out_at_a_hose_is_caught_there_and_is_no_draining(params string[] lines)
    {
        var map = Read(Said([.. lines, "pump off, two 13 bolts"]));
        Assert.Empty(map.Supplies);
        Assert.Equal(["About 0.5 L runs out when it comes off: have a tray under it, and top it up after."], map.Joints.Single(joint => joint.Id == "top-hose").Notes);
    }

    [Theory]
    [InlineData("bottom hose off, 6 litres of coolant ran out")]
    [InlineData("coolant drained, half a litre")]
    [InlineData("half a litre of coolant drained, bottom hose off")]
    [InlineData("guard off, four 10 mil bolts, coolant drained, 0.8 litre")]
    public void What_was_let_out_is_a_draining(string line) => Assert.Equal(SupplyKind.Coolant, Assert.Single(Read(Said(line, "pump off, two 13 bolts")).Supplies).Kind);

    [Fact]
    public void What_came_after_the_draining_is_of_the_hose_as_well()
    {
        var map = Read(Said("coolant drained, 4 litres", "top hose off, 2 litres of coolant ran out", "pump off, two 13 bolts"));
        Assert.Equal(4, Assert.Single(map.Supplies).Amount_L);
        Assert.Contains("2 L of coolant", Assert.Single(map.Joints.Single(joint => joint.Id == "top-hose").Notes), StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_wanted_for_nothing_that_is_named_hangs_on_nothing()
    {
        var bay = Said("housing off, two 13 bolts", "shaft seal out", "renew the belt", "thermostat to be renewed");
        Assert.All(bay.Job.Net.Map.Renewals, renewal => Assert.Equal(Renewal.Alone, renewal.For));
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:shaft-seal")));
        Assert.Contains(OpenItems.Of(bay.Job.Standing), item => item.Sentence == "“Belt” is not in yet.");
        var map = Read(bay);
        Assert.Empty(map.Renewals);
        Assert.Equal(["New the last time, and nobody said what for: Belt.", "New the last time, and nobody said what for: Thermostat."], map.Lessons);
    }

    [Fact]
    public void A_fluid_of_which_nobody_told_how_much_has_to_be_here_all_the_same()
    {
        var map = Read(Said("oil drained", "cover off, two 13 bolts"));
        var bay = new Bay(OperationNet.From(map), ["cover"], TimeSpan.Zero);
        var plan = Plan(map, "cover");
        Assert.Equal((NeededKind.New, true, ItemState.Missing), Oil());
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Renew the cover")));
        Assert.Null(bay.Do(0, new Moved(Move.SupplySafe, map.Supplies[0].Id)));
        Assert.Null(bay.Do(0, new Moved(Move.SupplyRestored, map.Supplies[0].Id)));
        Assert.Equal((NeededKind.New, true, ItemState.Here), Oil());

        (NeededKind, bool, ItemState) Oil() => Needed.Of(bay.On(0).Standing, plan).Where(item => item.Name == "Oil").Select(item => (item.Kind, item.IsUnmeasured, item.State)).Single();
    }
}
