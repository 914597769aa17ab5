using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Tests.Recording;

public class RecordedToolTests
{
    [Theory]
    [InlineData("slackened 2 grub screws 4 mm", "en", "inner hex 4 mm")]
    [InlineData("grub screws out", "en", "inner hex")]
    [InlineData("slotted grub screw out", "en", "slot")]
    [InlineData("2 Madenschrauben 4 mm gelöst", "de", "inner hex 4 mm")]
    public void A_grub_screw_takes_a_key_and_no_spanner(string line, string language, string drive) =>
        Assert.Equal(new Tool("key or bit", drive), RecordedTool.Of(LineReader.Read(line, language).Readings[0]));

    [Theory]
    [InlineData("four guard bolts out, 17 mil with a breaker bar", "spanner or socket", "hex 17 mm")]
    [InlineData("four guard bolts out, 17 mil with the long breaker bar", "spanner or socket", "hex 17 mm")]
    [InlineData("guard bolt out with heat", "spanner or socket", null)]
    [InlineData("four 6 mm allen screws out with an impact driver", "key or bit", "inner hex 6 mm")]
    [InlineData("four guard bolts out, 17 mil, penetrating oil", "spanner or socket", "hex 17 mm")]
    // What holds or reaches a head is needed home as well.
    [InlineData("four guard bolts out, 17 mil with a long swivel", "long swivel", "hex 17 mm")]
    [InlineData("filter off strap wrench", null, null)]
    public void Home_it_is_the_plain_tool_of_the_head(string line, string? tool, string? drive)
    {
        var joint = new Recorder().Say(line).Job.Net.Map.Joints.FirstOrDefault();
        Assert.Equal(tool is null ? null : new Tool(tool, drive), joint?.Tool);
    }

    [Fact]
    public void What_broke_it_loose_is_kept_for_the_next_time_it_comes_off() =>
        Assert.Equal(new Tool("breaker bar", "hex 17 mm"), RecordedTool.Of(LineReader.English.Read("four guard bolts out, 17 mil with a breaker bar").Readings[0]));

    [Theory]
    [InlineData("two wing nuts off the lid", "en")]
    [InlineData("star knob off", "en")]
    [InlineData("two hand knobs out", "en")]
    [InlineData("zwei Flügelmuttern ab", "de")]
    public void What_is_turned_by_hand_asks_for_no_spanner(string line, string language) =>
        Assert.Equal(Tool.Hand, Assert.Single(new Recorder().Say(line, language: language).Job.Net.Map.Joints).Tool);
}
