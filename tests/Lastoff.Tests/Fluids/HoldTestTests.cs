using CsCheck;
using Lastoff.Bench;
using Lastoff.Core.Fluids;

namespace Lastoff.Tests.Fluids;

public class HoldTestTests
{
    private static readonly Temperature Bay = Temperature.FromCelsius(20);

    // Warming alone makes the pressure rise as much as a leak would: p/T does not change, so no leak is found.
    [Fact]
    public void Warming_is_not_taken_for_a_leak()
    {
        var warming = Enumerable.Range(0, 21).Select(i => 293.15 + (i * 0.2)).ToArray();
        var test = Judge(HoldKind.Vacuum, [.. warming.Select(kelvins => 20_000 * kelvins / 293.15)], warming, division: 10);
        Assert.Equal(HoldVerdict.Tight, test.Verdict);
        Assert.InRange(test.Throughput, -1e-4, 1e-4);
    }

    [Theory]
    [InlineData(HoldKind.Vacuum, 1)]
    [InlineData(HoldKind.Pressure, -1)]
    public void A_leak_is_above_zero_whichever_way_the_needle_goes(HoldKind kind, int side)
    {
        var start = kind == HoldKind.Vacuum ? 17_000 : 200_000;
        var test = Judge(kind, [.. Enumerable.Range(0, 21).Select(i => Math.Round((start + (side * i * 300)) / 1000.0) * 1000)], null, division: 1000);
        Assert.Equal(HoldVerdict.Leaking, test.Verdict);

        // 300 Pa every 30 s in 8 L.
        Assert.Equal(0.08, test.Throughput, 0.008);
        Assert.InRange(0.08, test.Interval.Low, test.Interval.High);
    }

    [Fact]
    public void A_still_needle_watched_for_long_is_tight_and_for_short_is_not_known()
    {
        Assert.Equal(HoldVerdict.Tight, Judge(HoldKind.Vacuum, [.. Enumerable.Repeat(17_000.0, 41)], null, division: 1000).Verdict);
        var early = Judge(HoldKind.Vacuum, [.. Enumerable.Repeat(17_000.0, 5)], null, division: 1000);
        Assert.Equal(HoldVerdict.CannotTellYet, early.Verdict);
        Assert.True(early.WatchLongerSeconds > 0);
    }

    [Fact]
    public void A_coarser_dial_and_a_poorer_class_are_less_sure() =>
        Gen.Double[200, 2000].Sample(
            rise =>
            {
                double[] pascals = [.. Enumerable.Range(0, 15).Select(i => Math.Round((17_000 + (rise * i / 14)) / 100) * 100)];
                var fine = Judge(HoldKind.Vacuum, pascals, null, division: 100);
                Assert.True(Width(Judge(HoldKind.Vacuum, pascals, null, division: 1000)) > Width(fine));
                Assert.True(Width(Judge(HoldKind.Vacuum, pascals, null, division: 100, accuracyClass: 4)) > Width(fine));
            },
            iter: 20);

    [Fact]
    public void A_vacuum_that_deepens_is_remarked_on() =>
        Assert.Contains(Judge(HoldKind.Vacuum, [.. Enumerable.Range(0, 21).Select(i => 17_000.0 - (i * 300))], null, division: 100).Notes, note => note.Contains("no leak does"));

    // Half of the pressure difference and the same gas flow means a hole twice as leaky, or more: what comes out as coolant rises with it.
    [Fact]
    public void Everyday_terms_go_with_the_leak()
    {
        var one = CoolantLoss.Of(0.01, Atmosphere.SeaLevel, Pressure.FromKilopascals(17));
        Assert.Equal(2 * one.DropsPerDay, CoolantLoss.Of(0.02, Atmosphere.SeaLevel, Pressure.FromKilopascals(17)).DropsPerDay, 1e-6);
        Assert.Equal(one.DropsPerDay * 30 / 20_000, one.LitresPerMonth, 1e-9);
        Assert.Equal("less than a drop a day", CoolantLoss.Of(0, Atmosphere.SeaLevel, Pressure.FromKilopascals(17)).ToString());
    }

    // With divisions fine against the scatter the interval is Student's t interval, by definition of the threshold. 1 %: the rounding that is left.
    [Fact]
    public void Fine_divisions_give_the_plain_regression() =>
        Gen.Int[1, 1_000_000].Sample(
            seed =>
            {
                var random = new Random(seed);
                double[] x = [.. Enumerable.Range(0, 12).Select(i => i * 30.0)];
                double[] y = [.. x.Select(at => Math.Round(17_000 + at + (400 * HoldCampaign.Noise(random)), 0))];
                var fit = LineFit.Of(x, y);
                var reach = StudentT.Quantile(0.975, 10) * fit.SlopeDeviation;
                var interval = new RoundedLine(x, y, [.. x.Select(_ => 100.0)]).Interval(0.95);
                Assert.Equal(fit.Slope - reach, interval.Low, 0.05 * reach);
                Assert.Equal(fit.Slope + reach, interval.High, 0.05 * reach);
            },
            iter: 20);

    // The unit of time and the height of the readings are nobody's business.
    [Fact]
    public void The_interval_scales_with_its_units() =>
        Gen.Select(Gen.Int[-3, 3].Array[5, 12], Gen.Double[0.1, 60], Gen.Double[-50, 50]).Sample(
            (readings, stretch, height) =>
            {
                double[] x = [.. readings.Select((_, i) => (double)i)];
                var plain = new RoundedLine(x, [.. readings.Select(r => (double)r)], [.. x.Select(_ => 1.0)]).Interval(0.95);
                var moved = new RoundedLine([.. x.Select(at => at * stretch)], [.. readings.Select(r => (2.0 * r) + height)], [.. x.Select(_ => 2.0)]).Interval(0.95);
                Assert.Equal(plain.Low * 2 / stretch, moved.Low, 0.01 / stretch);
                Assert.Equal(plain.High * 2 / stretch, moved.High, 0.01 / stretch);
            },
            iter: 30);

    private static double Width(HoldTest test) => test.Interval.High - test.Interval.Low;

    private static HoldTest Judge(HoldKind kind, double[] pascals, double[]? kelvins, double division, double? accuracyClass = null)
    {
        HoldReading[] readings =
        [
            .. pascals.Select((pascal, i) => new HoldReading(i * 30, Pressure.FromPascals(pascal), kelvins is null ? Bay : Temperature.FromKelvins(kelvins[i]))),
        ];
        return HoldTest.Of(
            new HoldReadings(kind, readings, division, 0.05, []),
            new HoldSettings(8, Atmosphere.SeaLevel, Pressure.FromPascals(division), accuracyClass)).Value!;
    }
}
