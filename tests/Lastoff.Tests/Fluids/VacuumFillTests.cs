using CsCheck;
using Lastoff.Core;
using Lastoff.Core.Fluids;

namespace Lastoff.Tests.Fluids;

public class VacuumFillTests
{
    [Fact]
    public void Higher_up_the_gauge_can_show_less() =>
        Gen.Select(Gen.Double[0, 3900], Gen.Double[-10, 40]).Sample((metres, celsius) =>
        {
            var low = VacuumFill.Of(Atmosphere.Standard(metres), Temperature.FromCelsius(celsius)).Value!;
            var high = VacuumFill.Of(Atmosphere.Standard(metres + 100), Temperature.FromCelsius(celsius)).Value!;
            Assert.True(high.DeepestUsefulOnGauge < low.DeepestUsefulOnGauge);
            Assert.True(low.DeepestUsefulOnGauge > low.FillFromOnGauge);
        });

    [Theory]
    [InlineData(25, VacuumJudgement.Deep)]
    [InlineData(22, VacuumJudgement.Shallow)]
    [InlineData(29.5, VacuumJudgement.Boiling)]
    public void A_reading_at_sea_level_is_judged(double inchesOfMercury, VacuumJudgement judgement) =>
        Assert.Equal(judgement, Reading(inchesOfMercury, 0).Value!.Judgement);

    // 22 inHg leaves little air at 1500 m, where the weather allows 25.
    [Fact]
    public void The_same_reading_is_deep_enough_higher_up() => Assert.Equal(VacuumJudgement.Deep, Reading(22, 1500).Value!.Judgement);

    [Fact]
    public void More_than_the_weather_allows_is_refused() => Assert.Contains("more than the weather allows", Reading(26, 1500).Sentence);

    [Theory]
    [InlineData(41)]
    [InlineData(90)]
    [InlineData(120)]
    public void A_hot_engine_is_refused_with_the_reason(double celsius) =>
        Assert.Matches("hot engine: at .*(steam|boiling hot)", VacuumFill.Of(Atmosphere.SeaLevel, Temperature.FromCelsius(celsius)).Sentence);

    [Fact]
    public void Wet_or_dry_the_air_left_lies_between_none_and_the_pressures_share() =>
        Gen.Double[0, 29.2].Sample(inches =>
        {
            var reading = Reading(inches, 0).Value!;
            Assert.InRange(reading.AirLeftShareIfWet, 0, reading.AirLeftShare);
            Assert.InRange(reading.AirLeftShare, 0, 1);
        });

    private static Answer<VacuumReading> Reading(double inchesOfMercury, double metres) =>
        VacuumFill.Of(Atmosphere.Standard(metres), Temperature.FromCelsius(20)).Value!.Reading(Pressure.FromInchesOfMercury(inchesOfMercury));
}
