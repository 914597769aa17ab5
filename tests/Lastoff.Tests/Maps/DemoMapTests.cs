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

    [Theory]
    [InlineData("light-van", "transfer-pipe", 55, 4)]
    [InlineData("orchard-sprayer-pump", "upper-diaphragm", 9, 1)]
    public void The_job_to_try_goes_deep_and_has_real_alternatives(string name, string goal, int leastNeeded, int leastAlternatives)
    {
        var net = OperationNet.From(Demo.Map(name));
        var all = OperationSet.Of(net.Operations.Count, Enumerable.Range(0, net.Operations.Count));
        var off = net.Find(OperationKind.Off, goal);
        var needed = net.Operations.Where(o => !net.Supported(all.Without(o.Index)).Contains(off)).ToList();
        Assert.InRange(needed.Count, leastNeeded, 80);
        Assert.True(needed.Count(o => o.Ways.Count > 1) >= leastAlternatives);
    }
}
