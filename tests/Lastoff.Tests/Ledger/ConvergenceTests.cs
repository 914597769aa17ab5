using Lastoff.Bench;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Maps;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Ledger;

/// <summary>Devices that met at last agree, however they got there. The long campaign is <c>bench -- convergence 10000</c>.</summary>
public class ConvergenceTests
{
    [Theory]
    [InlineData("orchard-sprayer-pump")]
    [InlineData("light-van")]
    public void Random_histories_of_a_demo_machine_end_in_one_standing(string name)
    {
        var map = MapReader.Read(File.ReadAllText(LastoffProgram.Demo(name + ".map.yaml")), name).Map!;
        Assert.All(Enumerable.Range(1, 60), seed => Assert.Null(Convergence.Run(map, seed).Fault));
    }

    [Fact]
    public void Random_histories_of_generated_machines_end_in_one_standing() =>
        Assert.All(Enumerable.Range(1, 150), seed => Assert.Null(Convergence.Run(MapGenerator.Make(8 + seed % 30, seed), seed).Fault));

    /// <summary>Three devices that write three entries each without one another: all 1 680 orders in which nine entries can arrive.</summary>
    [Fact]
    public void Every_order_of_arrival_of_a_small_case_gives_the_same_standing()
    {
        for (byte seed = 0; seed < 8; seed++)
        {
            var choices = new Choices([.. Enumerable.Range(0, 400).Select(i => (byte)((i * 73 + seed * 151 + i * i * seed) % 251))]);
            var map = RandomMaps.Build(choices, 5);
            var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], TimeSpan.Zero, TimeSpan.FromDays(2), TimeSpan.FromDays(-9));
            var begun = bay.On(0).Entries;
            foreach (var device in Enumerable.Range(0, 3))
            {
                for (var (written, tries) = (0, 0); written < 3 && tries < 200; tries++)
                {
                    written += bay.Do(device, choices.Of(Bay.Everyone(bay.Net))) is null ? 1 : 0;
                }
            }

            var chains = Enumerable.Range(0, 3).Select(d => bay.On(d).Entries.Except(begun).ToList()).ToList();
            Assert.All(chains, chain => Assert.Equal(3, chain.Count));
            var expected = Describe.Everything(Fold.Of(bay.Net, bay.Everything));
            var orders = 0;
            foreach (var order in Interleavings(chains))
            {
                orders++;
                Assert.Equal(expected, Describe.Everything(begun.Concat(order).Aggregate(Job.From(bay.Net, []), (job, entry) => job.With(entry)).Standing));
            }

            Assert.Equal(1680, orders);
        }
    }

    private static IEnumerable<List<Entry>> Interleavings(List<List<Entry>> chains)
    {
        if (chains.All(chain => chain.Count == 0))
        {
            yield return [];
        }

        for (var i = 0; i < chains.Count; i++)
        {
            if (chains[i].Count > 0)
            {
                List<List<Entry>> rest = [.. chains.Select((chain, at) => at == i ? chain.Skip(1).ToList() : chain)];
                foreach (var order in Interleavings(rest))
                {
                    yield return [chains[i][0], .. order];
                }
            }
        }
    }
}
