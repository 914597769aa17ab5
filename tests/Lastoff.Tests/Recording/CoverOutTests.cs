using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

/// <summary>A cap or plug that the lines before put into an opening comes out of it again; any other is a part.</summary>
public class CoverOutTests
{
    [Theory]
    [InlineData("red cap on the pressure port", "red cap off the pressure port", "uncovered; part pressure port; cover red cap")]
    [InlineData("cap on the pressure port", "red cap off the pressure port", "uncovered; part pressure port; cover cap")]
    [InlineData("caps on both ports", "caps off both ports, pump on", "uncovered; part ports; cover caps; note pump on")]
    [InlineData("two red caps on the ports", "red cap off the port", "uncovered; x1; part ports; cover red cap")]
    [InlineData("blue plug in the return port", "blue plug out of the return port", "uncovered; part return port; cover blue plug")]
    [InlineData("plug in the return port", "plug out of the return port", "uncovered; part return port; cover plug")]
    [InlineData("rote Kappe auf dem Druckanschluss", "rote Kappe vom Druckanschluss ab", "uncovered; part Druckanschluss; cover rote Kappe")]
    [InlineData("blauer Stopfen im Rücklaufanschluss", "blauen Stopfen aus dem Rücklaufanschluss raus", "uncovered; part Rücklaufanschluss; cover blauer Stopfen")]
    // Another cap, another opening, another plug.
    [InlineData("red cap on the pressure port", "cap off the radiator", "off; part cap; note off the radiator")]
    [InlineData("red cap on the pressure port", "blue cap off the pressure port", "off; part blue cap; note off the pressure port")]
    [InlineData("red cap on the pressure port", "red cap off the return port", "off; part red cap; note off the return port")]
    [InlineData("blue plug in the return port", "drain plug out of the return port", "undone; bolt; name drain plug; part return port")]
    [InlineData("rag in the inlet", "red cap off the pressure port", "off; part red cap; note off the pressure port")]
    public void It_comes_out_where_it_is_in(string before, string line, string expected) => Assert.Equal(expected, ReadingText.Write(Read(line, Read(before, []))));

    [Fact]
    public void Of_two_each_comes_out_by_itself_and_then_none_is_left()
    {
        var told = Read("two red caps on the ports", []);
        foreach (var expected in new[] { "uncovered; x1; part ports; cover red cap", "uncovered; x1; part ports; cover red cap", "off; part red cap; note off the port" })
        {
            var line = Read("red cap off the port", told);
            Assert.Equal(expected, ReadingText.Write(line));
            told = [.. line, .. told];
        }
    }

    [Fact]
    public void Bolts_told_beside_a_plug_are_bolts() => Assert.Equal(
        "uncovered; part return port; cover plug + undone; bolt; x2; part return port",
        ReadingText.Write(Read("plug out of the return port, two bolts off the return port", Read("plug in the return port", []))));

    [Fact]
    public void Off_both_ports_both_come_out() => Assert.Equal(
        "uncovered; part pressure port; cover red cap + uncovered; part return port; cover blue cap",
        ReadingText.Write(Read("caps off both ports", [.. Read("blue cap on the return port", []), .. Read("red cap on the pressure port", [])])));

    [Fact]
    public void What_is_out_again_is_a_part_the_next_time()
    {
        var covered = Read("red cap on the pressure port", []);
        var uncovered = Read("red cap off the pressure port", covered);
        Assert.Equal("off; part red cap; note off the pressure port", ReadingText.Write(Read("red cap off the pressure port", [.. uncovered, .. covered])));
    }

    /// <param name="before">The last first.</param>
    private static IReadOnlyList<Reading> Read(string line, IReadOnlyList<Reading> before) => LineReader.Read(line, line.Any(letter => letter > 127) || line.Contains("Kappe", StringComparison.Ordinal) ? "de" : "en", before).Readings;
}
