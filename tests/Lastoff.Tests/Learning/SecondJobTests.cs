using Lastoff.Core.Learning;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Recording;
using Lastoff.Tests.Maps;
using Lastoff.Tests.Papers;
using Lastoff.Tests.Recording;
using static Lastoff.Tests.Learning.MapFromLines;

namespace Lastoff.Tests.Learning;

/// <summary>A job on a map made of one recording is no worse than the recording was: all that was known then is in the map. The machine is invented.</summary>
public class SecondJobTests
{
    private static readonly string[] Lines =
    [
        "battery lead off", "chain guard off, six 13 mil bolts, tray 1", "split link undone", "drive chain off, timing marked with white paint",
        "drained the oil, about two litres, blue can", "two hydraulic hoses off the feed motor, plugged both", "feed motor out, four M12 bolts, 80 Nm, tray 2",
        "suction hose off the tank", "tension spring unhooked, careful it flies", "woodruff key out",
        "bearing housing off, four 17 mil bolts, one was seized, got it with heat, tray 3", "bearing pulled off the shaft, knackered",
    ];

    private static readonly OperationNet Net = OperationNet.From(Read(Learned(Said(Lines))));

    private static readonly Plan Second = Planner.Make(Net, Goal.Renewing("bearing"), Net.Nothing, PlanLimits.AtOnce).Plan!;

    [Fact]
    public void What_was_drained_is_measured_filled_renewed_and_proved()
    {
        Assert.Equal(2, Net.Supplies["oil"].Amount_L);
        Assert.Equal(("Drain", "Fill"), (StepVerbs.Of(Net, StepKind.MakeSafe, "oil"), StepVerbs.Of(Net, StepKind.Restore, "oil")));
        Assert.NotNull(Net.Supplies["oil"].MakeSafe);
        Assert.NotNull(Net.Supplies["oil"].Restore);
        Assert.Contains(Second.Renewals, renewal => renewal is { Name: "Oil", Kind: RenewalKind.Fluid, For: "oil", Count: 2, Unit: "L" });
        Assert.Equal(("No leak: Oil", StepKind.Prove), (Second.Back[^1].Name, Second.Back[^1].Kind));
    }

    [Fact]
    public void What_went_in_again_counts_before_what_came_out_and_the_middle_of_all_recordings_is_taken()
    {
        var filled = Said(["cover off", "oil drained, 2 litres"]);
        Assert.Null(filled.Do(new Moved(Move.SupplyRestored, "supply:oil", "tried", 2.4)));
        var map = Read(Learned(filled, Said(["cover off", "oil drained, 2 litres"]), Said(["cover off", "oil drained, 3 litres"])));
        Assert.Equal(2.4, Assert.Single(map.Supplies).Amount_L);
    }

    [Fact]
    public void Of_a_fluid_nobody_measured_no_amount_is_made_up()
    {
        var net = OperationNet.From(Read(Learned(Said(["oil drained", "sump off"]))));
        Assert.Null(net.Supplies["oil"].Amount_L);
        Assert.Empty(net.Map.Renewals);
        Assert.Equal("Fill", StepVerbs.Of(net, StepKind.Restore, "oil"));
    }

    [Theory]
    [InlineData(StepKind.Undo, "hydraulic-hoses", "A fine jet goes through skin")]
    [InlineData(StepKind.Undo, "tension-spring", "A spring under tension flies")]
    [InlineData(StepKind.Undo, "bearing-housing-bolts", "Seized in 1 of 1: “bearing housing off, four 17 mil bolts, one was seized, got it with heat, tray 3”.")]
    public void What_was_to_be_heeded_and_what_gave_trouble_is_said_again(StepKind kind, string target, string words) =>
        Assert.Contains(words, Second.Out.Concat(Second.Back).Single(step => step.Kind == kind && step.Target == target).Caution, StringComparison.Ordinal);

    [Theory]
    [InlineData("tension-spring", "careful it flies")]
    [InlineData("drive-chain", "timing marked with white paint")]
    [InlineData("bearing", "pulled off the shaft")]
    [InlineData("oil", "blue can")]
    public void What_was_said_is_told_again_and_is_no_caution(string target, string words)
    {
        Assert.Contains(Net.NotesOf(target), note => note.Contains(words, StringComparison.Ordinal));
        Assert.All(Second.Out.Concat(Second.Back).Where(step => step.Target == target), step => Assert.DoesNotContain(words, step.Caution ?? "", StringComparison.Ordinal));
    }

    [Fact]
    public void What_is_so_of_one_machine_alone_is_no_caution_of_the_sort() =>
        Assert.DoesNotContain("look at its threads", Net.Joints["bearing-housing-bolts"].Caution, StringComparison.Ordinal);

    [Fact]
    public void One_of_a_set_that_broke_is_told_of_at_the_set()
    {
        var bay = Said(Lines);
        Assert.Null(bay.Do(new LineRecorded("one bearing housing bolt snapped, need a new one", [new Reading { Deed = Deed.Wanted, Part = "Bearing housing bolt", Count = 1 }])));
        Assert.Contains("snapped", Read(Learned(bay)).Joints.Single(joint => joint.Id == "bearing-housing-bolts").Caution, StringComparison.Ordinal);
    }

    [Fact]
    public void All_that_came_off_before_a_part_is_on_the_way_to_it()
    {
        string[] way = ["split-link", "drive-chain", "hydraulic-hoses", "feed-motor", "suction-hose", "tension-spring", "woodruff-key", "bearing-housing-bolts", "bearing-housing", "bearing"];
        Assert.Equal(way, Second.Out.Select(step => step.Target).Where(way.Contains).Distinct());
        Assert.DoesNotContain(Net.Map.Parts, part => part.Name.Contains("not recorded", StringComparison.Ordinal));
    }

    [Fact]
    public void A_place_or_tool_nobody_told_of_is_not_known()
    {
        var map = Read(Learned(Said(["drive chain off", "cover off, at the back", "two 17 mil bolts off the flange"])));
        Assert.True(map.Learned);
        Assert.False(RecordedMap.IsPlaceKnown(map, map.Parts.Single(part => part.Id == "drive-chain").At));
        Assert.False(RecordedMap.IsToolKnown(map, map.Parts.Single(part => part.Id == "drive-chain").Tool));
        Assert.True(RecordedMap.IsPlaceKnown(map, map.Parts.Single(part => part.Id == "cover").At));
        Assert.True(RecordedMap.IsToolKnown(map, map.Joints.Single(joint => joint.Id == "flange-bolts").Tool));
        Assert.True(RecordedMap.IsPlaceKnown(Demo.Map("light-van"), Position.Above));
    }

    [Fact]
    public void Trouble_that_was_not_timed_has_no_figure()
    {
        Assert.Null(Net.Joints["bearing-housing-bolts"].Risk);
        Assert.Null(Assert.Single(Learned(Said(Lines)).Rates, rate => rate.Kind == TroubleKind.Seized).ExtraMinutes);
    }

    // Four parts in a minute are no times.
    [Theory]
    [InlineData(0.2, 1)]
    [InlineData(2, 2)]
    public void A_job_told_in_one_go_teaches_no_times(double minutes, double off)
    {
        var bay = new[] { "guard off", "cover off", "bracket off", "pump off" }.Aggregate(new Recorder(), (bay, line) => bay.Say(line, minutes: minutes));
        Assert.Equal(off, Read(Learned(bay)).Parts[1].OffMinutes, 2);
    }

    [Fact]
    public void A_torque_that_was_told_is_kept_where_recordings_agree()
    {
        Assert.Equal(80, Net.Joints["feed-motor-bolts"].Torque!.Value.NewtonMetres, 6);
        Assert.Null(Read(Learned(Said(["pump off, two 13 bolts, 20 Nm"]), Said(["pump off, two 13 bolts, 25 Nm"]))).Joints.Single().Torque);
    }

    [Fact]
    public void What_the_map_says_by_itself_is_said_in_the_language_of_who_learns_and_what_was_said_as_it_was()
    {
        var map = new Recordings([RecordedStrip.Of("one", Said(Lines).Job.Entries)]).Learn("m", "M", [], PaperWordsTests.TongueOf("de")).Or(sentence => throw new InvalidOperationException(sentence));
        Assert.Contains("Festgefressen bei 1 von 1: “bearing housing off, four 17 mil bolts", map.Yaml, StringComparison.Ordinal);
        Assert.Contains("Gesagt beim Abnehmen: „tension spring unhooked, careful it flies“.", map.Yaml, StringComparison.Ordinal);
    }
}
