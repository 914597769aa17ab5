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
}
