using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Recording;

/// <summary>What lines tell of covers, plugs and rags in openings: counted in and out, and nothing closes over them. All machines are invented.</summary>
public class RecordedCoverTests
{
    [Fact]
    public void A_rag_in_a_port_is_counted_in_and_out_and_nothing_closes_over_it()
    {
        var bay = new Recorder().Say("inlet manifold off, six 10 mil bolts").Say("stuffed two rags in the ports");
        var standing = bay.Job.Standing;
        Assert.Equal((1, 0), (standing.CoversPutIn, standing.CoversTakenOut));
        Assert.Contains(OpenItems.Of(standing), item => item.Kind == OpenKind.Cover && item.Sentence.Contains("“Ports”", StringComparison.Ordinal));
        Assert.Contains("take it out first", bay.Do(new Moved(Move.PartFitted, "part:inlet-manifold"))!.Sentence);
        bay.Say("took the rags out of the ports");
        Assert.Equal((1, 1), (bay.Job.Standing.CoversPutIn, bay.Job.Standing.CoversTakenOut));
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:inlet-manifold")));
        Assert.Empty(bay.Job.Standing.Questions);
        Assert.Contains(OutAndHome.Of(bay.Job), row => row.Act is OpeningCovered && row.Home is not null);
    }

    [Fact]
    public void A_capped_pipe_is_uncapped_before_it_is_made_and_the_way_back_says_so()
    {
        var bay = new Recorder().Say("feed pipe off the pump, 17 mil").Say("capped the feed pipe").Say("pump off, two 13 bolts");
        var pipe = bay.Job.Net.Map.Openings.Single().On;
        Assert.Equal("Feed pipe, 17 mm", bay.Job.Net.Joints[pipe].Name);
        Assert.True(bay.GoesHome());
        Assert.Equal((1, 1), (bay.Job.Standing.CoversPutIn, bay.Job.Standing.CoversTakenOut));
    }

    [Fact]
    public void A_rag_that_comes_out_and_never_went_in_is_asked_about()
    {
        var bay = new Recorder().Say("air box off").Say("rag out of the inlet");
        Assert.Contains("none went in", Assert.Single(bay.Job.Standing.Questions).Sentence);
    }

    [Fact]
    public void What_was_covered_before_anything_came_off_has_to_come_out_again()
    {
        var bay = new Recorder().Say("plugged the inlet with a rag");
        Assert.Contains(OpenItems.Of(bay.Job.Standing), item => item.Kind == OpenKind.Cover);
        bay.Say("rag out of the inlet");
        Assert.DoesNotContain(OpenItems.Of(bay.Job.Standing), item => item.Kind == OpenKind.Cover);
    }

    [Fact]
    public void A_cover_taken_back_was_never_in()
    {
        var bay = new Recorder().Say("air box off").Say("plugged the inlet with a rag");
        Assert.Null(bay.Do(new TakenBack(bay.Job.Entries[^1].Id)));
        Assert.Equal(0, bay.Job.Standing.CoversPutIn);
        Assert.Empty(bay.Job.Net.Map.Openings);
    }

    [Fact]
    public void Of_two_rags_one_out_leaves_the_opening_covered_and_says_what_is_still_in()
    {
        var bay = new Recorder().Say("inlet manifold off").Say("stuffed two rags in the ports").Say("one rag out of the ports");
        Assert.Equal((1, 0), (bay.Job.Standing.CoversPutIn, bay.Job.Standing.CoversTakenOut));
        Assert.Equal("The rag is in “Ports”.", Assert.Single(OpenItems.Of(bay.Job.Standing), item => item.Kind == OpenKind.Cover).Sentence);
        Assert.Contains("The rag is still in", bay.Do(new Moved(Move.PartFitted, "part:inlet-manifold"))!.Sentence);
        Assert.Null(Assert.Single(OutAndHome.Of(bay.Job), row => row.Act is OpeningCovered).Home);
        bay.Say("one rag out of the ports");
        Assert.Empty(bay.Job.Standing.Covered);
        Assert.Equal("set of 2 (rags)", Assert.Single(bay.Job.Net.Map.Openings).Cover);
        Assert.NotNull(Assert.Single(OutAndHome.Of(bay.Job), row => row.Act is OpeningCovered).Home);
        Assert.Empty(bay.Job.Standing.Questions);
    }

    [Fact]
    public void A_coloured_cap_is_counted_in_and_its_name_is_kept()
    {
        var bay = new Recorder().Say("pump off").Say("red cap on the pressure port").Say("blue bung in the return port");
        Assert.Equal(["Pressure port: red cap", "Return port: blue bung"], bay.Job.Net.Map.Openings.Select(opening => $"{opening.Name}: {opening.Cover}"));
        bay.Say("bung out of the return port");
        Assert.Equal((2, 1), (bay.Job.Standing.CoversPutIn, bay.Job.Standing.CoversTakenOut));
        Assert.Empty(bay.Job.Standing.Questions);
    }

    [Fact]
    public void A_second_other_cover_is_kept_beside_the_first_and_both_must_come_out()
    {
        var bay = new Recorder().Say("air box off").Say("rag in the inlet").Say("capped the inlet");
        Assert.Equal("The rag and cap is in “Inlet”.", Assert.Single(OpenItems.Of(bay.Job.Standing), item => item.Kind == OpenKind.Cover).Sentence);
        bay.Say("uncapped the inlet");
        Assert.Contains("The rag is still in", bay.Do(new Moved(Move.PartFitted, "part:air-box"))!.Sentence);
        bay.Say("rag out of the inlet");
        Assert.Empty(bay.Job.Standing.Covered);
        Assert.Empty(bay.Job.Standing.Questions);
        Assert.Equal("rag and cap", Assert.Single(bay.Job.Net.Map.Openings).Cover);
        // Empty once, it begins anew.
        Assert.Equal("bung", Assert.Single(bay.Say("put a bung in the inlet").Job.Net.Map.Openings).Cover);
    }

    [Fact]
    public void Another_cover_out_than_went_in_is_asked_about_and_leaves_it_in()
    {
        var bay = new Recorder().Say("air box off").Say("rag in the inlet").Say("bung out of the inlet");
        Assert.Contains("the rag is in", Assert.Single(bay.Job.Standing.Questions).Sentence);
        Assert.Single(bay.Job.Standing.Covered);
        Assert.Null(bay.Do(new OpeningUncovered("opening:inlet")));
        Assert.Empty(bay.Job.Standing.Covered);
    }

    [Fact]
    public void All_of_them_by_a_plural_or_a_tap_are_out()
    {
        var bay = new Recorder().Say("inlet manifold off").Say("stuffed two rags in the ports").Say("one rag out of the ports");
        Assert.Null(bay.Do(new OpeningUncovered("opening:ports")));
        Assert.Null(bay.Do(new OpeningCovered("opening:ports")));
        Assert.Contains("set of 2 (rags)", Assert.Single(OpenItems.Of(bay.Job.Standing), item => item.Kind == OpenKind.Cover).Sentence);
        Assert.Empty(bay.Say("took the rags out of the ports").Job.Standing.Covered);
    }

    [Fact]
    public void On_a_part_that_stays_the_opening_is_on_the_hose_that_came_off_it()
    {
        var bay = new Recorder().Say("hose off the throttle body").Say("two 10 mil bolts off the throttle body").Say("plugged the throttle body with a rag");
        var hose = bay.Job.Net.Map.Joints.Single(joint => joint.Kind == JointKind.Hose).Id;
        Assert.Equal(hose, Assert.Single(bay.Job.Net.Map.Openings).On);
        Assert.Contains("take it out first", bay.Do(new Moved(Move.JointMade, hose))!.Sentence);
    }

    [Fact]
    public void On_a_part_that_is_away_the_opening_is_on_the_part_and_on_one_that_came_home_it_is_not()
    {
        Assert.Equal("part:throttle-body", Assert.Single(new Recorder().Say("throttle body off").Say("horn off").Say("plugged the throttle body with a rag").Job.Net.Map.Openings).On);
        var bay = new Recorder().Say("throttle body off");
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:throttle-body")));
        Assert.Equal("part:horn", Assert.Single(bay.Say("horn off").Say("plugged the throttle body with a rag").Job.Net.Map.Openings).On);
    }
}
