using Lastoff.Core.Fluids;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Maps;

/// <summary>What a map says of fluids and of their proofs. Its faults stand in data/bad-maps/fluids.map.yaml.</summary>
public class FluidMapTests
{
    [Fact]
    public void The_light_van_says_what_goes_in_and_what_its_proofs_need()
    {
        var map = Demo.Map("light-van");
        var coolant = map.Supplies.Single(supply => supply.Id == "coolant");
        Assert.Equal(new Fluid(Glycol.Ethylene, 50, "Si-OAT", Pressure.FromKilopascals(140), 1.1), coolant.Fluid);
        var hold = map.Proofs.Single(proof => proof.Id == "coolant-vacuum").Hold!;
        Assert.Equal((5.7, Pressure.FromKilopascals(1)), (hold.Volume_L, hold.Resolution));
        Assert.Equal(2e-2, hold.Allowed!.Value.ThroughputAt(Temperature.FromCelsius(20)), 1e-12);
        Assert.Equal(4, map.Proofs.Single(proof => proof.Id == "coolant-mix").WithinPercent);
        Assert.Equal(112, map.Proofs.Single(proof => proof.Id == "warm-up").Limit!.Value.Celsius, 1e-9);
    }

    [Fact]
    public void A_map_that_says_nothing_of_fluids_is_as_good_as_before()
    {
        var map = MapReader.Read("""
            format: 1
            name: bench
            title: Bench
            supplies:
              - {id: water, name: Water, kind: coolant, amount: 3 L}
            parts:
              - {id: pump, name: Pump}
            proofs:
              - {id: hold, name: Hold, kind: vacuum_hold, for: water}
            """, "bench").Map!;
        Assert.Null(map.Supplies[0].Fluid);
        Assert.Equal((null, null, null), (map.Proofs[0].Hold, map.Proofs[0].Limit, map.Proofs[0].WithinPercent));
    }
}
