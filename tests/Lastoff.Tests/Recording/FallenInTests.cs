using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>Lines of our own, in the words of the bay (common practice, no source): which of them may say that something fell into the machine.</summary>
public class FallenInTests
{
    [Theory]
    [InlineData("dropped a washer into the bell housing", "washer", "bell housing")]
    [InlineData("M6 nut fell down the spark plug hole", "M6 nut", "spark plug hole")]
    [InlineData("lost the circlip behind the dash", "circlip", "dash")]
    [InlineData("10 mil socket slipped down a gap", "10 mil socket", "gap")]
    [InlineData("Dropped the e-clip inside the gearbox, can't see it", "e-clip", "gearbox", "can't see it")]
    [InlineData("dropped a 13 down behind the crank pulley", "13 mm bolt", "crank pulley")]
    [InlineData("dropped a nut behind the sump", "nut", "sump")]
    [InlineData("dropped a cover bolt under the bench", "cover bolt", "bench")]
    [InlineData("rag fell into inlet", "rag", "inlet")]
    [InlineData("lost a washer, fell into the belly pan somewhere", "washer", "belly pan")]
    [InlineData("two nuts off the cover, dropped one, rolled behind the dash", "one", "dash", "two nuts off the cover")]
    [InlineData("four bolts off the guard, nut fell into the sump", "nut", "sump", "four bolts off the guard")]
    [InlineData("dropped a nut, can't find it", "nut", "", "can't find it")]
    [InlineData("bolt slipped, not found", "bolt", "", "not found")]
    [InlineData("circlip off with the pliers, flew away, not found", "circlip", "", "circlip off with the pliers, not found")]
    [InlineData("three bolts, tray 2, dropped a washer into the sump, bracket off", "washer", "sump", "three bolts, tray 2, bracket off")]
    public void What_fell_and_into_what_is_read_and_the_rest_is_kept(string line, string what, string where, string rest = "") =>
        Assert.Equal(new FallenIn(what, where, rest), LineReader.English.FallenIn(line));

    [Theory]
    [InlineData("eine Scheibe ist in den Kettenkasten gefallen", "Scheibe", "Kettenkasten")]
    [InlineData("Mutter hinter das Blech gerutscht", "Mutter", "Blech")]
    [InlineData("Mutter ins Gehäuse gefallen", "Mutter", "Gehäuse")]
    [InlineData("mir ist eine Mutter ins Gehäuse gefallen", "Mutter", "Gehäuse")]
    // Into what is not said.
    [InlineData("eine Mutter ist runtergefallen, nicht gefunden", "Mutter", "", "nicht gefunden")]
    [InlineData("M6 Mutter runtergefallen", "M6 Mutter", "")]
    [InlineData("Seegerring mit der Zange ab, weggeflogen, nicht gefunden", "Seegerring", "", "Seegerring mit der Zange ab, nicht gefunden")]
    public void In_German_what_and_where_stand_before_it(string line, string what, string where, string rest = "") =>
        Assert.Equal(new FallenIn(what, where, rest), LineReader.In("de").FallenIn(line));

    [Theory]
    [InlineData("Auspuff runtergefallen")]
    [InlineData("Schlauch runtergefallen")]
    [InlineData("Clip gesprungen")]
    [InlineData("Mutter verloren")]
    [InlineData("Schraube in Schale 2 gefallen")]
    public void In_German_too_what_broke_or_hangs_or_is_wanted_is_not_asked_about(string line) => Assert.Null(LineReader.In("de").FallenIn(line));

    [Theory]
    [InlineData("four 10 mil bolts off the guard, dropped in tray 2")]
    [InlineData("dropped the oil, 4 litres, into the pan")]
    [InlineData("sump dropped")]
    [InlineData("dropped the gearbox down on the jack")]
    [InlineData("hose in the way of the bracket")]
    [InlineData("alternator out, three 13s")]
    [InlineData("plugged the inlet with a rag")]
    [InlineData("dropped the gearbox, pipes in the way")]
    [InlineData("dropped the gearbox in the way of the pipes")]
    [InlineData("exhaust dropped, bolts behind the heat shield")]
    [InlineData("drop link off, nut stuck in the bush")]
    [InlineData("dropped the pump, can't find it")]
    [InlineData("lost a washer, not found")]
    [InlineData("dropped a nut, got it back")]
    [InlineData("fell")]
    [InlineData("dropped into")]
    [InlineData("")]
    public void What_went_where_it_belongs_is_not_asked_about(string line) => Assert.Null(LineReader.English.FallenIn(line));
}
