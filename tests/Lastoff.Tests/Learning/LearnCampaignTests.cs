using Lastoff.Bench;
using Lastoff.Core.Maps;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Learning;

/// <summary>A short run of the campaign whose long one stands as a table in docs/methods/learning.md.</summary>
public class LearnCampaignTests
{
    private const int Seeds = 5;

    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(16)]
    public void The_light_van_is_learned_from_random_strips(int strips)
    {
        var net = OperationNet.From(Demo.Map("light-van"));
        AreSound([.. Enumerable.Range(1, Seeds).Select(seed => LearnCampaign.Once(net, "transfer-pipe", strips, seed))], strips);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(16)]
    public void Generated_maps_are_learned_from_random_strips(int strips) =>
        AreSound(
            [
                .. Enumerable.Range(1, Seeds).Select(seed => MapGenerator.Make(80, seed) is var map
                    ? LearnCampaign.Once(OperationNet.From(map), MapGenerator.Goal(map), strips, seed) : null!),
            ],
            strips);

    // More strips leave fewer orders that are only chance.
    [Fact]
    public void More_strips_are_more_precise()
    {
        var net = OperationNet.From(Demo.Map("light-van"));
        double Precision(int strips) => Enumerable.Range(1, Seeds).Select(seed => LearnCampaign.Once(net, "transfer-pipe", strips, seed)).Average(r => (double)r.Both / r.Learned);
        var (few, some, many) = (Precision(1), Precision(4), Precision(16));
        Assert.True(few < some && some < many, $"{few:P0}, {some:P0}, {many:P0}");
        Assert.True(many > 0.5, $"{many:P0}");
    }

    private static void AreSound(IReadOnlyList<LearnResult> results, int strips)
    {
        Assert.All(results, result =>
        {
            Assert.Equal(0, result.Forbidden);
            Assert.Equal(result.True, result.Both);
            Assert.Equal(result.Fresh, result.DrawnLegal);
            Assert.True(result.PlanLegal || result.DoubtNamed);
            Assert.True(strips < 4 || result.PlanLegal);
        });
    }
}
