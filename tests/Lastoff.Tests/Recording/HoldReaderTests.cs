using Lastoff.Core.Ledger;
using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>What holds something still for a time has to come out again before the machine runs. All machines are invented.</summary>
public class HoldReaderTests
{
    [Theory]
    [InlineData("drum pin in so it can't turn", "drum", "drum pin")]
    [InlineData("infeed table pulled up, drum pin in so it can't turn", "drum", "drum pin")]
    [InlineData("put a bar through the flywheel to stop it turning", "flywheel", "bar")]
    [InlineData("screwdriver in the ring gear, so it won't turn", "ring gear", "screwdriver")]
    [InlineData("wedge under the drum so that it can't roll", "drum", "wedge")]
    [InlineData("timing pin in the pulley so nothing moves", "pulley", "timing pin")]
    [InlineData("locking pin in the crankshaft", "crankshaft", "locking pin")]
    [InlineData("Absteckstift in der Kurbelwelle", "Kurbelwelle", "Absteckstift")]
    [InlineData("Stange durch das Schwungrad, damit es sich nicht dreht", "Schwungrad", "Stange")]
    [InlineData("block under the gearbox so it can't drop", "gearbox", "block")]
    public void What_holds_something_still_is_in_there_until_it_is_taken_out(string line, string place, string what)
    {
        var bay = new Recorder().Say("guard off, four 13 bolts").Say(line, language: char.IsUpper(line[0]) ? "de" : "en");
        var covered = Assert.Single(CountedEntry.AllOf(bay.Job.Entries).Select(counted => counted.Act).OfType<LineRecorded>().SelectMany(told => told.Readings), reading => reading.Cover is not null);
        // What for is understood, and no words of it are left over.
        Assert.Equal((place, what, null), (covered.Part, covered.Cover, covered.Note));
        Assert.Contains(OpenItems.Of(bay.Job.Standing), item => item.Kind == OpenKind.Cover);
        Assert.NotNull(bay.Do(new Moved(Move.PartFitted, "part:guard")));
        Assert.True(bay.GoesHome());
        Assert.Equal(0, bay.Job.Standing.CoversPutIn - bay.Job.Standing.CoversTakenOut);
    }

    [Theory]
    [InlineData("drum pin in so it can't turn", "drum pin out")]
    [InlineData("drum pin in so it can't turn", "pulled the drum pin out again")]
    [InlineData("locking pin in the crankshaft", "locking pin out of the crankshaft")]
    [InlineData("bar through the flywheel to stop it turning", "bar out of the flywheel")]
    [InlineData("tape over the gearbox opening", "tape off again")]
    public void It_comes_out_by_a_line_too(string @in, string @out)
    {
        var bay = new Recorder().Say("guard off, four 13 bolts").Say(@in).Say(@out);
        Assert.Equal((1, 1), (bay.Job.Standing.CoversPutIn, bay.Job.Standing.CoversTakenOut));
    }

    [Fact]
    public void A_longer_story_of_what_for_is_kept() =>
        Assert.Equal("covered; part sprocket; cover bar; note so it doesn't turn while I lift it", ReadingText.Write(LineReader.English.Read("bar in the sprocket so it doesn't turn while I lift it").Readings));

    [Theory]
    [InlineData("split pin out of the clevis")]
    [InlineData("two pins in tray 2")]
    [InlineData("bolt in so it doesn't get lost")]
    [InlineData("no locking pin in the crankshaft")]
    [InlineData("screwdriver in tray 2 so it can't roll away")]
    public void Whatever_holds_nothing_still_covers_nothing(string line) => Assert.Equal(0, new Recorder().Say("guard off, four 13 bolts").Say(line).Job.Standing.CoversPutIn);
}
