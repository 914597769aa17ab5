using CsCheck;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Ledger;

/// <summary>The gate before a layer says what the guards would say, and all of it at once.</summary>
public class ClosingGateTests
{
    [Fact]
    public void A_part_goes_home_exactly_when_nothing_hangs_on_it_and_every_condition_of_its_gate_is_met()
    {
        var (held, free) = (0, 0);
        Gen.Select(RandomMaps.UpTo(14), Gen.Byte.Array[40, 400]).Sample((map, bytes) =>
        {
            var choices = new Choices(bytes);
            var bay = new Bay(OperationNet.From(map), [map.Parts[^1].Id], TimeSpan.Zero);
            var acts = Bay.Everyone(bay.Net);
            for (var step = 0; step < 120; step++)
            {
                bay.Do(0, choices.Of(acts));
                var standing = bay.On(0).Standing;
                foreach (var operation in standing.Done.Select(done => bay.Net.Operations[done]))
                {
                    var isHeld = bay.Net.HoldingBack(standing.Done, operation.Index).Count > 0 || ClosingGate.Of(standing, operation.Index).Any(condition => !condition.IsMet);
                    var refusal = Guards.Check(standing, new Moved(operation.Kind.Back(), operation.Target));
                    if (operation.Kind is OperationKind.Aside or OperationKind.Off)
                    {
                        Assert.Equal(isHeld, refusal is not null);
                        (held, free) = isHeld ? (held + 1, free) : (held, free + 1);
                    }
                    else if (isHeld)
                    {
                        // A joint may be held back by its own passes too, so only this way round.
                        Assert.NotNull(refusal);
                    }
                }
            }
        }, iter: 100, threads: 1);
        Assert.True(held > 1000 && free > 1000, $"{held} held back, {free} free");
    }

    [Fact]
    public void The_gate_of_a_layer_names_what_is_loose_beneath_it_and_is_gone_when_the_layer_is_closed()
    {
        var net = OperationNet.From(MapReader.Read(File.ReadAllText(LastoffProgram.Demo("light-van.map.yaml")), "light-van").Map!);
        var plan = Planner.Make(net, Goal.Renewing("transfer-pipe"), net.Nothing, PlanLimits.Quick, TestContext.Current.CancellationToken).Plan!;
        var bay = new Bay(net, ["transfer-pipe"], TimeSpan.Zero);
        Assert.Null(bay.Do(0, new Agreed("The owner", "in person", "Renew the pipe")));
        foreach (var step in plan.Out)
        {
            Assert.Null(bay.Do(0, step));
        }

        var layers = Layers.Of(net, bay.On(0).Standing.Done);
        Assert.True(layers.Count > 1);
        Assert.Contains(ClosingGate.Of(bay.On(0).Standing, layers[0]), condition => !condition.IsMet);
        foreach (var step in plan.Back)
        {
            Assert.Null(bay.Do(0, step));
        }

        Assert.All(layers, layer => Assert.Empty(ClosingGate.Of(bay.On(0).Standing, layer)));
    }
}
