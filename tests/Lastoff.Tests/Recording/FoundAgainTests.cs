using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>Lines of our own: which of them may say that what fell into the machine is out again.</summary>
public class FoundAgainTests
{
    [Theory]
    [InlineData("fished the washer out with a magnet", "washer")]
    [InlineData("got the washer back out", "washer")]
    [InlineData("got the washer out", "washer")]
    [InlineData("got washer out of the gearbox", "washer")]
    [InlineData("washer found", "washer")]
    [InlineData("found the washer in the sump", "washer")]
    [InlineData("with the magnet I fished the washer out", "washer")]
    [InlineData("washer out, it was behind the gear", "washer")]
    [InlineData("found the nut", "M6 nut")]
    [InlineData("fished it out", "washer")]
    [InlineData("found it", "washer")]
    [InlineData("fished the washer out, lid off", "washer", "lid off")]
    public void It_is_that_thing_and_the_rest_is_kept(string line, string what, string rest = "") =>
        Assert.Equal(new FoundAgain(what, rest), LineReader.FoundAgain(line, "en", ["washer", "M6 nut"]));

    [Theory]
    [InlineData("found the 13")]
    [InlineData("found the 13 behind the pulley")]
    [InlineData("fished the bolt out")]
    public void By_any_word_of_its_name(string line) => Assert.Equal("13 mm bolt", LineReader.FoundAgain(line, "en", ["13 mm bolt"])?.What);

    [Fact]
    public void Another_thing_that_is_found_is_another() => Assert.Null(LineReader.FoundAgain("found the leak", "en", ["13 mm bolt"]));

    [Theory]
    [InlineData("Scheibe mit dem Magneten rausgefischt")]
    [InlineData("Scheibe gefunden")]
    [InlineData("Scheibe ist wieder raus")]
    [InlineData("die Scheibe aus dem Gehäuse geangelt")]
    [InlineData("habe sie gefunden")]
    public void In_German_too(string line) => Assert.Equal(new FoundAgain("Scheibe", ""), LineReader.FoundAgain(line, "de", ["Scheibe"]));

    [Theory]
    [InlineData("washer not found")]
    [InlineData("can't find the washer")]
    [InlineData("no washer found")]
    [InlineData("two nuts off the cover, tray 2")]
    [InlineData("nut and washer out")]
    [InlineData("gearbox out")]
    [InlineData("washer pump out")]
    [InlineData("got it out")]
    [InlineData("washer in tray 2")]
    [InlineData("")]
    public void What_is_another_thing_or_not_out_is_not_asked_about(string line) => Assert.Null(LineReader.FoundAgain(line, "en", ["washer"]));

    [Fact]
    public void Where_nothing_fell_in_nothing_is_asked() => Assert.Null(LineReader.FoundAgain("found it", "en", []));
}
