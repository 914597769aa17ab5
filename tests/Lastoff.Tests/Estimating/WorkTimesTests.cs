using Lastoff.Bench;
using Lastoff.Core.Estimating;

namespace Lastoff.Tests.Estimating;

/// <summary>Times learned from invented work, and a short run of the campaign in docs/methods/times.md.</summary>
public class WorkTimesTests
{
    [Fact]
    public void With_nothing_timed_the_trade_has_its_say() => Assert.Equal(1, new WorkTimes([]).Factor(Nut(2)), 1e-12);

    [Fact]
    public void Much_that_was_timed_outweighs_the_trade_and_little_does_not()
    {
        double Learned(int count) => new WorkTimes([.. Enumerable.Range(0, count).Select(i => new TimedWork(Nut(2), 4 * Math.Exp(0.1 * (i % 3 - 1))))]).Factor(Nut(2));
        Assert.InRange(Learned(1), 1.05, 1.6);
        Assert.InRange(Learned(100), 1.85, 2.05);
    }

    [Fact]
    public void A_plan_takes_more_the_longer_it_is_and_P90_lies_above_P50()
    {
        var times = new WorkTimes([new TimedWork(Nut(2), 3)]);
        var (one, two) = (times.Of([Nut(2)]), times.Of([Nut(2), Nut(2)]));
        Assert.True(one.P50 < two.P50 && one.P90 < two.P90 && two.P50 < two.P90 && two.P90 < 2 * one.P90);
        Assert.Equal(default, times.Of([]));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(double.NaN)]
    [InlineData(-1)]
    public void Work_that_took_no_time_is_refused(double minutes) => Assert.Throws<ArgumentException>(() => new WorkTimes([new TimedWork(Nut(2), minutes)]));

    [Fact]
    public void A_pause_is_noticed_and_not_counted()
    {
        var start = new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
        double[] at = [0, 3, 50, 52, 52.01, 60];
        var stretches = Marks.Cut([.. at.Select(minutes => new Mark(Nut(2), start.AddMinutes(minutes)))], 0.5);
        Assert.Equal([(3, false), (47, true), (2, false), (7.99, false)], stretches.Select(s => (Math.Round(s.Minutes, 2), s.IsPause)));
    }

    [Fact]
    public void Work_that_was_only_written_down_afterwards_says_nothing_of_how_long_it_takes()
    {
        var start = new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);
        double[] at = [0, 3, 3.2, 3.4, 3.6, 4.1];
        var stretches = Marks.Cut([.. at.Select(minutes => new Mark(Nut(2), start.AddMinutes(minutes)))], 0.5);
        Assert.Equal([(3, true), (0.2, false), (0.2, false), (0.2, false), (0.5, true)], stretches.Select(s => (Math.Round(s.Minutes, 2), s.IsTimed)));
    }

    // Three hundred workshops: the count of jobs within P90 scatters by 1.7 points, so the band of 88 to 92 % is asked for with twice that on either side.
    [Fact]
    public void Nine_jobs_in_ten_stay_within_P90()
    {
        List<(bool P50, bool P90)> all = [.. Enumerable.Range(1, 300).Select(seed => TimesCampaign.Once(3, seed))];
        Assert.InRange(all.Count(x => x.P90) / 300.0, 0.88 - 0.034, 0.92 + 0.034);
        Assert.InRange(all.Count(x => x.P50) / 300.0, 0.44, 0.56);
    }

    // The log-normal of the same mean and variance against a hundred thousand drawn sums. Tolerance: 1 % for the drawing, 3 % for the match in the tail.
    [Fact]
    public void A_sum_of_log_normals_is_matched()
    {
        var times = new WorkTimes([.. Enumerable.Range(0, 400).Select(i => new TimedWork(Nut(2) with { Traits = Traits("known") }, 2 * Math.Exp(0.5 * Math.Sqrt(2) * Math.Sin(i))))]);
        List<Work> plan = [.. Enumerable.Range(1, 30).Select(i => new Work(0.1 * i, Traits("known")))];
        var said = times.Of(plan);
        var random = new Random(7);
        var sums = Enumerable.Range(0, 100_000).Select(_ => plan.Sum(work => work.TradeMinutes * times.Factor(work) * Math.Exp(times.Scatter * HoldCampaign.Noise(random)))).Order().ToList();
        Assert.Equal(sums[50_000], said.P50, 0.02 * said.P50);
        Assert.Equal(sums[90_000], said.P90, 0.04 * said.P90);
    }

    private static Work Nut(double minutes) => new(minutes, new Dictionary<Trait, string> { [Trait.Kind] = "nut" });

    private static Dictionary<Trait, string> Traits(string job) => new() { [Trait.Kind] = "nut", [Trait.Job] = job };
}
