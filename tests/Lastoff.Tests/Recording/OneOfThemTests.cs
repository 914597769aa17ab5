using Lastoff.Core.Ledger;
using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>A bolt that gave trouble may be one of those that were told before. All machines are invented.</summary>
public class OneOfThemTests
{
    private const string Four = "four 17 mil motor flange bolts out, tray 4";

    [Theory]
    [InlineData(Four, "one motor flange bolt stuck, came with heat")]
    [InlineData(Four, "one 17 mil motor flange bolt stuck, came with heat")]
    [InlineData(Four, "one motor flange bolt snapped")]
    [InlineData("six nuts off the pump", "one nut off the pump, seized")]
    [InlineData("six nuts out", "one nut seized, came with heat")]
    public void It_is_asked(string before, string line) => Assert.Equal(Doubt.OneOfThem, Assert.Single(Asked(line, before)).Question?.Doubt);

    [Theory]
    [InlineData(Four, "one motor flange bolt stuck, came with heat, tray 5")]
    [InlineData(Four, "one pump bolt stuck, came with heat")]
    [InlineData(Four, "one 13 mil motor flange bolt stuck, came with heat")]
    [InlineData(Four, "one motor flange bolt out")]
    [InlineData("one motor flange bolt out", "one motor flange bolt stuck, came with heat")]
    public void Where_it_is_another_nothing_is_asked(string before, string line) => Assert.Null(Assert.Single(Asked(line, before)).Question);

    [Fact]
    public void The_sixth_one_that_sheared_is_another_of_the_same() =>
        Assert.Equal("undone; bolt; x1; part cover; broken; note stub still in the housing", ReadingText.Write(LineReader.Read("the sixth one sheared off, stub still in the housing", "en", Read("undid five cover bolts")).Readings));

    [Fact]
    public void A_bolt_of_nothing_is_one_of_the_line_before_only() =>
        Assert.Null(Assert.Single(OneOfThem.Asked(Read("one nut seized, came with heat"), [.. Read("lid off"), .. Read("six nuts out")])).Question);

    [Fact]
    public void One_of_them_brings_nothing_home_and_one_that_broke_has_to_be_new()
    {
        var stuck = Assert.Single(Asked("one motor flange bolt stuck, came with heat", Four));
        Assert.Equal("Is it one of the 4 told before?", stuck.Question!.Sentence);
        Assert.Equal("note; bolt; x1; name flange bolt; part motor; seized; tool heat", ReadingText.Write(stuck.Question.Answered(stuck, 0)));
        Assert.Equal("undone; bolt; x1; name flange bolt; part motor; seized; tool heat", ReadingText.Write(stuck.Question.Answered(stuck, 1)));
        var snapped = Assert.Single(Asked("one motor flange bolt snapped", Four));
        Assert.Equal("wanted; x1; part Motor flange bolt; broken", ReadingText.Write(snapped.Question!.Answered(snapped, 0)));
    }

    [Fact]
    public void Where_it_is_another_it_is_asked_whether_it_is_out()
    {
        var stuck = Assert.Single(Asked("one motor flange bolt stuck", Four));
        Assert.Equal(Doubt.IsItOut, stuck.Question!.Answered(stuck, 1).Question?.Doubt);
        Assert.Null(stuck.Question.Answered(stuck, 0).Question);
    }

    [Theory]
    [InlineData("en", "bearing housing off, four 17 mil bolts", "one of them snapped, need a new one", "wanted; x1; part Bearing housing bolt; broken; note need a new one")]
    [InlineData("en", "six 17 mil bolts off the bearing housing", "one of six bolts snapped, stub still in", "wanted; x1; part Bearing housing bolt; broken; note stub still in")]
    [InlineData("en", "bearing housing off, four 17 mil bolts", "one snapped", "wanted; x1; part Bearing housing bolt; broken")]
    [InlineData("en", "bearing housing off, four 17 mil bolts", "one of those is broken", "wanted; x1; part Bearing housing bolt; broken")]
    [InlineData("en", "bearing housing off, four 17 mil bolts", "two snapped, need new ones", "wanted; x2; part Bearing housing bolts; broken; note need new ones")]
    [InlineData("de", "vier 17er Muttern vom Deckel ab", "eine davon abgerissen, brauche neue", "wanted; x1; part Deckel Mutter; broken; note brauche neue")]
    [InlineData("en", "four 13 mil bolts off the bracket", "top left one sheared off", "wanted; x1; part Bracket bolt; broken")]
    [InlineData("de", "vier Schrauben vom Deckel ab", "oben links eine abgerissen", "wanted; x1; part Deckel Schraube; broken")]
    // Of the four none is left that broke, and a lid is no bolt.
    [InlineData("en", "four bolts off the lid", "four snapped", "note; broken")]
    [InlineData("en", "lid off", "one snapped", "note; broken")]
    public void Of_the_group_told_just_before_so_many_are_broken_and_as_many_are_to_be_had(string language, string group, string line, string read)
    {
        var before = LineReader.Read(group, language).Readings.Reverse().ToList();
        Assert.Equal(read, ReadingText.Write(LineReader.Read(line, language, before).Readings));
    }

    [Fact]
    public void The_new_one_is_held_against_the_joint_it_broke_of()
    {
        var bay = new Recorder().Say("bearing housing off, four 17 mil bolts");
        var group = LineReader.Read("bearing housing off, four 17 mil bolts", "en").Readings.Reverse().ToList();
        Assert.Null(bay.Do(new LineRecorded("one of them snapped", LineReader.Read("one of them snapped", "en", group).Readings)));
        var renewal = Assert.Single(bay.Job.Net.Map.Renewals);
        Assert.Equal(("Bearing housing bolt", 1, "Bearing housing bolts, 17 mm"), (renewal.Name, renewal.Count, bay.Job.Net.Joints[renewal.For].Name));
    }

    [Fact]
    public void One_that_broke_and_is_needed_new_is_wanted_once_when_it_was_answered()
    {
        var asked = Asked("one motor flange bolt snapped, need a new one", Four);
        Assert.Equal("wanted; x1; part Motor flange bolt; broken; note need a new one", ReadingText.Write(OneOfThem.Answered(asked, 0, 0)));
        Assert.Equal(asked.Count, OneOfThem.Answered(asked, 0, 1).Count);
    }

    [Theory]
    [InlineData("en", "four guard bolts out, 13 mil", "one of the guard bolts was tight, penetrating oil and a breaker bar", "note; bolt; x1; part guard; tool penetrating oil; note tight, a breaker bar")]
    [InlineData("en", "four guard bolts out, 13 mil", "one guard bolt was tight", "note; bolt; x1; part guard; note tight")]
    [InlineData("en", "six cover bolts out", "two of the cover bolts were seized, came with heat", "note; bolt; x2; part cover; seized; tool heat")]
    [InlineData("en", "six cover bolts out", "two of the cover bolts were seized, came out with heat", "note; bolt; x2; part cover; seized; tool heat")]
    [InlineData("en", "four guard bolts out", "the last guard bolt was stiff", "note; bolt; part last guard; note stiff")]
    [InlineData("en", "four guard bolts out", "all four guard bolts were tight", "note; bolt; x4; part guard; note tight")]
    [InlineData("en", "guard bolts out", "one of the guard bolts was tight", "note; bolt; x1; part guard; note tight")]
    [InlineData("en", "guard bolts out", "the guard bolts were tight", "note; bolt; part guard; note tight")]
    [InlineData("en", "four bolts out", "one bolt was tight", "note; bolt; x1; note tight")]
    [InlineData("de", "vier Deckelschrauben raus", "eine Deckelschraube war fest", "note; bolt; name Schraube; part Deckel; note fest")]
    // A deed, or another bolt.
    [InlineData("en", "four guard bolts out", "one of the guard bolts out", "undone; bolt; x1; part guard")]
    [InlineData("en", "four guard bolts out", "one guard bolt out, tight", "undone; bolt; x1; part guard; note tight")]
    [InlineData("en", "four guard bolts out", "one guard bolt hand tight", "undone; bolt; x1; part guard; note hand tight")]
    [InlineData("en", "four guard bolts out", "one guard bolt was tight, tray 3", "undone; bolt; x1; part guard; tray 3; note tight")]
    [InlineData("en", "four guard bolts out", "one of the cover bolts was tight", "undone; bolt; x1; part cover; note tight")]
    [InlineData("en", "four guard bolts out, 13 mil", "one 17 mil guard bolt was tight", "undone; bolt; x1; 17mm; part guard; note tight")]
    [InlineData("en", "guard off", "one of the guard bolts was tight", "undone; bolt; x1; part guard; note tight")]
    [InlineData("de", "vier Deckelschrauben raus", "eine der Deckelschrauben raus", "undone; bolt; name Schraube; part Deckel")]
    public void How_one_of_them_came_is_a_note(string language, string group, string line, string read) =>
        Assert.Equal(read, ReadingText.Write(LineReader.Read(line, language, [.. LineReader.Read(group, language).Readings.Reverse()]).Readings));

    [Fact]
    public void What_came_hard_adds_no_bolt_to_the_way_home()
    {
        var bay = new Recorder().Say("four guard bolts out, 13 mil").Say("guard off").Say("one of the guard bolts was tight, penetrating oil and a breaker bar");
        Assert.Equal(4, Assert.Single(bay.Job.Net.Map.Joints).Count);
    }

    [Fact]
    public void The_last_of_them_that_is_stuck_is_asked_about() => Assert.Equal(Doubt.OneOfThem, Assert.Single(Asked("the last guard bolt was seized", "four guard bolts out")).Question?.Doubt);

    private static IReadOnlyList<Reading> Asked(string line, string before) => OneOfThem.Asked(Read(line), Read(before));

    private static IReadOnlyList<Reading> Read(string line) => LineReader.Read(line, "en").Readings;
}
