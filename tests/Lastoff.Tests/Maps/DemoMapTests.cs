using Lastoff.Core.Maps;

namespace Lastoff.Tests.Maps;

public class DemoMapTests
{
    [Theory]
    [InlineData("light-van", 90, 140)]
    [InlineData("orchard-sprayer-pump", 15, 25)]
    public void A_demo_map_has_no_faults_the_promised_size_and_says_it_is_invented(string name, int least, int most)
    {
        var reading = MapReader.Read(Demo.Text(name), Demo.FileName(name));
        Assert.Equal([], reading.Faults.Select(reading.Describe));
        Assert.Equal(name, reading.Map!.Name);
        Assert.True(reading.Map.Invented);
        Assert.InRange(OperationNet.From(reading.Map).Operations.Count, least, most);
    }
}
