using CsCheck;
using Lastoff.Core.Fluids;

namespace Lastoff.Tests.Fluids;

public class CoolantTests
{
    private static readonly Gen<Glycol> AnyGlycol = Gen.Bool.Select(propylene => propylene ? Glycol.Propylene : Glycol.Ethylene);

    [Fact]
    public void Volume_and_mass_are_each_others_way_back() =>
        Gen.Select(AnyGlycol, Gen.Double[0, 57.8]).Sample((glycol, percent) =>
            Assert.Equal(percent, Coolant.FromVolumePercent(glycol, percent).Value!.VolumePercent, 1e-9));

    // A refractometer of either glycol reads back the mixture it was dipped in.
    [Fact]
    public void A_freezing_point_gives_the_mixture_back() =>
        Gen.Select(AnyGlycol, Gen.Double[0, 60]).Sample((glycol, percent) =>
        {
            var coolant = Coolant.FromMassPercent(glycol, percent).Value!;
            Assert.Equal(percent, Coolant.FromRefractometer(glycol, coolant.Freezing).Value!.MassPercent, 1e-6);
        });

    [Fact]
    public void A_hydrometer_with_its_temperature_gives_the_mixture_back() =>
        Gen.Select(AnyGlycol, Gen.Double[0, 57], Gen.Double[5, 90]).Sample((glycol, percent, celsius) =>
        {
            var coolant = Coolant.FromVolumePercent(glycol, percent).Value!;
            var at = Temperature.FromCelsius(celsius);
            var read = Coolant.FromHydrometer(glycol, coolant.DensityAt(at)!.Value / 999.0, at).Value!;
            Assert.Equal(percent, read.VolumePercent, 1e-6);
        });

    [Fact]
    public void More_glycol_freezes_lower_and_boils_higher() =>
        Gen.Select(AnyGlycol, Gen.Double[0, 59], Gen.Double[0.5, 1]).Sample((glycol, percent, more) =>
        {
            var weak = Coolant.FromMassPercent(glycol, percent).Value!;
            var strong = Coolant.FromMassPercent(glycol, percent + more).Value!;
            Assert.True(strong.Freezing < weak.Freezing);
            Assert.True(strong.BoilingAt(Atmosphere.SeaLevel) > weak.BoilingAt(Atmosphere.SeaLevel));
        });

    // 2.5 K up to 55 % by mass, and less than 3 K up to the end of the table, where the two published curves part; what is stated never says less.
    [Fact]
    public void The_two_freezing_curves_stay_as_near_as_stated() =>
        Gen.Select(AnyGlycol, Gen.Double[0, 60]).Sample((glycol, percent) =>
        {
            var coolant = Coolant.FromMassPercent(glycol, percent).Value!;
            Assert.Equal(coolant.Freezing.Celsius, coolant.FreezingByMelinder.Celsius, percent <= 55 ? 2.5 : 3.0);
            Assert.Equal(coolant.Freezing.Celsius, coolant.FreezingByMelinder.Celsius, coolant.FreezingPlusMinusKelvins);
            Assert.InRange(coolant.FreezingPlusMinusKelvins, 2, 3);
        });

    [Fact]
    public void A_frozen_mixture_has_no_density() =>
        Assert.Null(Coolant.FromVolumePercent(Glycol.Ethylene, 10).Value!.DensityAt(Temperature.FromCelsius(-20)));

    [Theory]
    [InlineData(70, "57.8")]
    [InlineData(-1, "0")]
    [InlineData(double.NaN, "0")]
    public void A_mixture_outside_the_table_is_refused_with_the_tables_end(double percent, string end) =>
        Assert.Contains(end, Coolant.FromVolumePercent(Glycol.Ethylene, percent).Sentence);

    [Fact]
    public void A_reading_in_the_wrong_unit_is_refused() =>
        Assert.Contains("°C or °F", Coolant.FromRefractometer(Glycol.Ethylene, Temperature.FromCelsius(-58)).Sentence);
}
