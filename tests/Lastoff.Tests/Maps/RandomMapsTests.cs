using CsCheck;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Maps;

public class RandomMapsTests
{
    [Fact]
    public void Every_operation_of_a_random_map_can_be_done_and_the_budget_holds() =>
        RandomMaps.UpTo(40).Sample(
            map =>
            {
                var net = OperationNet.From(map);
                var all = OperationSet.Of(net.Operations.Count, Enumerable.Range(0, net.Operations.Count));
                Assert.InRange(net.Operations.Count, 1, 40);
                Assert.Equal(all, net.Supported(all));
            },
            iter: 2000, threads: 1);

    [Fact]
    public void Random_maps_show_everything_a_map_can_say()
    {
        var maps = Enumerable.Range(0, 400).Select(seed => RandomMaps.Build(new Choices(Bytes(seed)), 40)).ToList();
        Assert.Contains(maps, m => m.Parts.Any(p => p.Aside is not null));
        Assert.Contains(maps, m => m.Parts.Any(p => p.RidesOn is not null));
        Assert.Contains(maps, m => m.Joints.Any(j => j.Reach.Either.Count > 0));
        Assert.Contains(maps, m => m.Joints.Any(j => j.Holds.Count > 1));
        Assert.Contains(maps, m => m.Joints.Any(j => j.Reach.Clear.Contains(j.Holds[0])));
        Assert.Contains(maps, m => m.Joints.Any(j => j.Risk is { Chance: > 0 }) && m.Joints.Any(j => j.Reach.Either.Any(way => way.Risk is not null)));
        Assert.Contains(maps, m => m.Joints.Any(j => j.Passes.Count > 1 && j.Count > 1));
        Assert.Contains(maps, m => m.Supplies.Any(s => s.Needs.Count > 0));
        Assert.Contains(maps, m => m.Openings.Count > 0 && m.Renewals.Count > 0 && m.Proofs.Count > 0);
    }

    private static byte[] Bytes(int seed)
    {
        var bytes = new byte[480];
        new Random(seed).NextBytes(bytes);
        return bytes;
    }
}
