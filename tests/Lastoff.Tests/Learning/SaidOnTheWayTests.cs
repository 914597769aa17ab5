using Lastoff.Core.Learning;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Papers;
using static Lastoff.Tests.Learning.MapFromLines;

namespace Lastoff.Tests.Learning;

/// <summary>What is said while recording counts when a map is learned: what was in the way, and what was open. All machines are invented.</summary>
public class SaidOnTheWayTests
{
    private static readonly string[] Lines = ["side panel off", "bracket off", "hose off the tank", "pump off, two 13 bolts"];

    [Fact]
    public void Without_a_word_everything_waits_for_what_came_before() => Assert.Contains(Learned(Lines).Waits, wait => wait is { First: "Bracket", Then: "Pump bolts" });

    [Fact]
    public void What_was_said_not_to_be_in_the_way_is_waited_for_no_more() =>
        Assert.DoesNotContain(Learned([.. Lines, "bracket was not in the way of the pump"]).Waits, wait => wait is { First: "Bracket", Then: "Pump" or "Pump bolts" });

    [Fact]
    public void Not_in_the_way_of_anything_is_of_all_that_came_after() =>
        Assert.DoesNotContain(Learned([.. Lines, "bracket was not in the way"]).Waits, wait => wait.First == "Bracket");

    [Fact]
    public void What_was_said_to_be_in_the_way_is_sure()
    {
        // Another strip shows the pump off with the bracket on; the word outranks it.
        var said = Strip("one", [.. Lines, "bracket in the way of the pump"]);
        var other = Strip("two", ["side panel off", "hose off the tank", "pump off, two 13 bolts", "bracket off"]);
        var learned = new Recordings([said, other]).Learn("m", "M", []).Or(sentence => throw new InvalidOperationException(sentence));
        Assert.Equal(1, Assert.Single(learned.Waits, wait => wait is { First: "Bracket", Then: "Pump" }).Sure);
    }

    [Fact]
    public void What_was_told_late_came_first_by_a_word()
    {
        var strip = Strip("one", ["pump off", "bracket off", "bracket was in the way of the pump"]);
        Assert.Equal(["Bracket", "Pump"], strip.Strip.Removals.Select(removal => removal.Name));
        Assert.Equal([new Said("Bracket", "Pump", true)], strip.Said);
    }

    [Fact]
    public void What_had_gone_home_by_then_was_not_told_late()
    {
        var bay = Said(["pump off", "bracket off"]);
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:bracket")));
        Assert.Empty(RecordedStrip.Of("one", bay.Say("bracket was in the way of the pump").Job.Entries).Said);
    }

    [Fact]
    public void What_nobody_recorded_says_nothing_and_the_map_is_learned_all_the_same() =>
        Assert.NotEmpty(Learned([.. Lines, "gearbox in the way of the pump"]).Waits);

    [Fact]
    public void A_hose_in_the_way_of_bolts_was_in_the_way_of_what_they_hold() =>
        Assert.Equal([new Said("Tank hose", "Pump", true)], Strip("one", [.. Lines, "tank hose was in the way of the pump bolts"]).Said);

    [Fact]
    public void What_was_laid_aside_and_then_taken_off_is_not_in_its_own_way()
    {
        string[] lines = ["bracket swung aside", "bracket in the way", "bracket off"];
        Assert.Empty(Strip("one", lines).Said);
        Assert.Equal([new Said("Bracket", "Pump", true)], Strip("one", [.. lines, "pump off"]).Said);
        Assert.NotEmpty(Learned([.. lines, "pump off"]).Waits);
    }

    [Fact]
    public void What_nobody_recorded_is_called_in_the_language_of_who_learns()
    {
        var map = new Recordings([Strip("one", ["Deckel off", "loom tied up", "drain plug out"])]).Learn("m", "M", [], PaperWordsTests.TongueOf("de")).Or(sentence => throw new InvalidOperationException(sentence)).Yaml;
        Assert.Contains("name: \"Was „Drain plug“ hält, nicht aufgezeichnet\"", map, StringComparison.Ordinal);
        Assert.Contains("name: \"Was „Loom“ beiseite noch hält, nicht aufgezeichnet\"", map, StringComparison.Ordinal);
        Assert.Contains("name: \"Deckel\"", map, StringComparison.Ordinal);
    }

    [Fact]
    public void What_two_names_merged_into_one_leave_of_a_word_says_nothing()
    {
        var one = Strip("one", ["bracket off", "stay off", "pump off", "bracket in the way of the stay"]);
        Assert.True(new Recordings([one]).Merged("Stay", "Bracket")!.Learn("m", "M", []).TryGet(out _, out var sentence), sentence);
    }

    [Fact]
    public void Lines_of_two_recordings_that_contradict_each_other_say_nothing_and_the_map_is_learned()
    {
        var two = new Recordings([
            Strip("one", ["cover off", "bracket off", "pump off", "cover in the way of the bracket", "cover in the way of the pump"]),
            Strip("two", ["bracket off", "cover off", "pump off", "bracket in the way of the cover"])]);
        var waits = Learned(two).Waits;
        Assert.DoesNotContain(waits, wait => wait is { First: "Cover", Then: "Bracket" } or { First: "Bracket", Then: "Cover" });
        // What nothing contradicts counts as before.
        Assert.Equal(1, Assert.Single(waits, wait => wait is { First: "Cover", Then: "Pump" }).Sure);
    }

    [Fact]
    public void In_the_way_by_one_recording_and_not_by_another_is_left_to_the_strips()
    {
        var two = new Recordings([
            Strip("one", ["cover off", "bracket off", "cover in the way of the bracket"]),
            Strip("two", ["cover off", "bracket off", "cover not in the way of the bracket"])]);
        var learned = Learned(two);
        Assert.True(Assert.Single(learned.Waits, wait => wait is { First: "Cover", Then: "Bracket" }).Sure < 1);
        // And whoever learns is asked.
        Assert.Equal(("Cover", "Bracket", 2, 2), learned.Asked.Select(wait => (wait.First, wait.Then, wait.Times, wait.Of)).Single());
    }

    [Fact]
    public void Lines_that_close_a_circle_through_others_say_nothing()
    {
        var three = new Recordings([
            Strip("one", ["cover off", "bracket off", "pump off", "cover in the way of the bracket"]),
            Strip("two", ["bracket off", "pump off", "cover off", "bracket in the way of the pump"]),
            Strip("three", ["pump off", "cover off", "bracket off", "pump in the way of the cover"])]);
        Assert.Empty(Learned(three).Waits);
    }

    [Fact]
    public void The_word_of_a_person_counts_against_a_line_and_only_other_words_of_that_person_stop_it()
    {
        var one = new Recordings([Strip("one", ["cover off", "bracket off", "cover in the way of the bracket"])]);
        Said[] said = [new("Bracket", "Cover", true)];
        Assert.Contains(one.Learn("m", "M", said).Or(sentence => throw new InvalidOperationException(sentence)).Waits, wait => wait is { First: "Bracket", Then: "Cover", Sure: 1 });
        Assert.False(one.Learn("m", "M", [.. said, new("Cover", "Bracket", true)]).TryGet(out _, out var sentence));
        Assert.Contains("take one of the words", sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void A_word_taken_back_says_nothing()
    {
        var bay = Said([.. Lines, "bracket was not in the way of the pump"]);
        Assert.Null(bay.Do(new TakenBack(bay.Job.Entries[^1].Id)));
        Assert.Empty(RecordedStrip.Of("one", bay.Job.Entries).Said);
    }

    [Fact]
    public void An_opening_comes_into_the_map_on_what_laid_it_bare_and_the_map_plans_its_cover()
    {
        var map = MapReader.Read(Learned(["side panel off", "inlet manifold off, six 10 mil bolts", "stuffed two rags in the ports"]).Yaml, "learned.map.yaml").Map!;
        var opening = Assert.Single(map.Openings);
        Assert.Equal(("Ports", "set of 2 (rags)"), (opening.Name, opening.Cover));
        Assert.Equal("Inlet manifold", map.Parts.Single(part => part.Id == opening.On).Name);
    }

    private static LearnedMap Learned(IReadOnlyList<string> lines) =>
        Learned(new Recordings([Strip("one", lines)]));

    private static LearnedMap Learned(Recordings recordings) => recordings.Learn("m", "M", []).Or(sentence => throw new InvalidOperationException(sentence));

    private static RecordedStrip Strip(string name, IReadOnlyList<string> lines) => RecordedStrip.Of(name, Said(lines).Job.Entries);
}
