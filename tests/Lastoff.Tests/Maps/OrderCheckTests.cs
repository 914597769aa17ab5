using System.Text.RegularExpressions;
using CsCheck;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Maps;

/// <summary>What the check says about circles and alternatives, against trying everything out on small random maps, most of them impossible.</summary>
public partial class OrderCheckTests
{
    private const int Parts = 5;

    private static readonly Gen<IReadOnlyList<string>> SomeParts = Gen.Int[0, Parts - 1].Array[0, 2].Select(ids => (IReadOnlyList<string>)[.. ids.Distinct().Select(i => $"p{i}")]);

    private static readonly Gen<ReachWay> Ways = Gen.Select(SomeParts, SomeParts, (clear, off) => new ReachWay(clear, [.. off.Except(clear)], null, null, 1, 0));

    private static readonly Gen<Reach> Reaches = Gen.Frequency(
        (3, Gen.Const(Reach.Free)),
        (2, SomeParts.Select(clear => new Reach(clear, [], []))),
        (1, Ways.Array[2, 3].Select(ways => new Reach([], [], ways))));

    private static readonly Gen<Part> PartShapes = Gen.Select(Reaches, Gen.Bool, Gen.Int[-6, Parts - 1], (reach, canLieAside, carrier) => new Part
    {
        Id = "",
        Name = "Part",
        Reach = reach,
        Aside = canLieAside ? new Aside([], 1, 1) : null,
        RidesOn = carrier < 0 ? null : $"p{carrier}",
    });

    private static readonly Gen<Joint> JointShapes = Gen.Select(Gen.Int[0, Parts - 1], Reaches, (held, reach) => new Joint
    {
        Id = "",
        Name = "Joint",
        Kind = JointKind.Bolt,
        Holds = [$"p{held}"],
        Reach = reach,
    });

    private static readonly Gen<Map> Maps = Gen.Select(PartShapes.Array[Parts], JointShapes.Array[0, 4], (parts, joints) => new Map
    {
        Name = "random",
        Title = "Random",
        Parts = [.. parts.Select((p, i) => p with { Id = $"p{i}", Line = 10 + i, RidesOn = p.RidesOn == $"p{i}" ? null : p.RidesOn })],
        Joints = [.. joints.Select((j, i) => j with { Id = $"j{i}", Line = 20 + i })],
    });

    [Fact]
    public void A_circle_is_reported_exactly_when_something_can_never_be_undone() => Maps.Sample(
        map =>
        {
            var net = OperationNet.From(map);
            var all = All(net);
            Assert.Equal(net.Supported(all) != all, Circles(map).Any());
        },
        iter: 3000);

    [Fact]
    public void Every_wait_of_a_circle_is_one_of_the_map() => Maps.Sample(
        map =>
        {
            var net = OperationNet.From(map);
            foreach (var circle in Circles(map))
            {
                var waits = Wait().Matches(circle.Sentence).Select(w => (From: w.Groups[1].Value, To: w.Groups[2].Value)).ToList();
                Assert.All(waits, wait => Assert.Contains(net.Operations, o => o.Target == wait.From && o.Ways.Any(way => way.Needs.Any(need => need.Any(m => net.Operations[m].Target == wait.To)))));
                Assert.Equal(waits.Select(w => w.To), [.. waits.Skip(1).Select(w => w.From), .. waits.Take(1).Select(w => w.From)]);
                Assert.True(waits.Count > 0 || circle.Sentence.Contains("waits for itself"));
            }
        },
        iter: 3000);

    [Fact]
    public void An_alternative_is_refused_exactly_when_nothing_can_open_it_before_its_work() => Maps.Where(map => !Circles(map).Any()).Sample(
        map =>
        {
            var net = OperationNet.From(map);
            var all = All(net);
            var never = net.Operations
                .Where(o => o.Kind != OperationKind.Aside && o.Ways.Count > 1)
                .Sum(o => o.Ways.Count(way => !way.IsOpen(net.Supported(all.Without(o.Index)))));
            Assert.Equal(never, MapCheck.Faults(map).Count(f => f.Field == "reach.either"));
        },
        iter: 3000);

    private static OperationSet All(OperationNet net) => OperationSet.Of(net.Operations.Count, Enumerable.Range(0, net.Operations.Count));

    private static IEnumerable<MapFault> Circles(Map map) => MapCheck.Faults(map).Where(f => f.Sentence.StartsWith("Nothing in this circle", StringComparison.Ordinal));

    [GeneratedRegex(@"(?<=[:,] )(\S+) waits for (\w+) \(line")]
    private static partial Regex Wait();
}
