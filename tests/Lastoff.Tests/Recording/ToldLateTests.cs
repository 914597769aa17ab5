using Lastoff.Core.Ledger;
using Lastoff.Core.Planning;
using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>What was forgotten and told late, and was in the way of what was told before: by that word it came off first, and goes home last. The machines are invented.</summary>
public class ToldLateTests
{
    [Theory]
    [InlineData("cover off, 3 bolts 10 mm", "pump off, 2 bolts 13", "forgot: belt off before that", "belt was in the way of the cover")]
    [InlineData("cover off, 3 bolts 10 mm", "pump off, 2 bolts 13", "forgot: belt off before that", "belt was in the way of the cover bolts")]
    [InlineData("cover off, 3 bolts 10 mm", "two 8 mil bolts undone", "belt off", "pump off, 2 bolts 13", "belt in the way of the cover")]
    public void It_goes_home_after_what_it_was_in_the_way_of(params string[] lines)
    {
        var bay = Said(lines);
        var back = Planner.Make(bay.Job.Standing, new Goal([], []), PlanLimits.AtOnce, TestContext.Current.CancellationToken).Plan!.Back.Where(step => step.Kind == StepKind.Fit).Select(step => step.Name);
        Assert.Equal(["Pump", "Cover", "Belt"], back);
        Assert.Contains("first", bay.Do(new Moved(Move.PartFitted, "part:belt"))!.Sentence, StringComparison.Ordinal);
        // And it hides the bolts of the cover, which are looked at before.
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:pump")));
        Assert.True(bay.GoesHome());
        Assert.Empty(bay.Job.Standing.Questions);
    }

    [Theory]
    [InlineData("cover off, 3 bolts 10 mm", "belt off")]
    [InlineData("cover off, 3 bolts 10 mm", "belt off", "belt was not in the way of the cover")]
    [InlineData("cover off, 3 bolts 10 mm", "belt off", "belt was in the way of the cover", "belt was not in the way of the cover")]
    [InlineData("cover off, 3 bolts 10 mm", "belt off", "cover was in the way of the belt")]
    [InlineData("cover off, 3 bolts 10 mm", "belt off", "belt was in the way of the gearbox")]
    public void Without_the_word_it_stays_as_it_was_told(params string[] lines) =>
        Assert.Null(Said(lines).Do(new Moved(Move.PartFitted, "part:belt")));

    [Fact]
    public void The_word_taken_back_it_stays_as_it_was_told()
    {
        var bay = Said("cover off, 3 bolts 10 mm", "belt off", "belt was in the way of the cover");
        Assert.Null(bay.Do(new TakenBack(bay.Job.Entries[^1].Id)));
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:belt")));
    }

    [Fact]
    public void Of_two_words_the_later_counts()
    {
        var bay = Said("cover off", "belt off", "belt was in the way of the cover", "cover was in the way of the belt");
        Assert.Null(bay.Do(new Moved(Move.PartFitted, "part:belt")));
    }

    [Theory]
    [InlineData("forgot: belt off before that", "off; part belt; note before that")]
    [InlineData("forgot to say, belt off", "off; part belt")]
    [InlineData("forgot the belt", "note; note forgot the belt")]
    public void That_it_was_forgotten_is_no_part(string line, string read) => Assert.Equal(read, ReadingText.Write(LineReader.Read(line, "en").Readings));

    private static Recorder Said(params IEnumerable<string> lines) => lines.Aggregate(new Recorder(), (bay, line) => bay.Say(line));
}
