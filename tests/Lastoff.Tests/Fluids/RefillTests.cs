using CsCheck;
using Lastoff.Core.Fluids;

namespace Lastoff.Tests.Fluids;

public class RefillTests
{
    [Fact]
    public void What_is_poured_fills_the_drain_and_the_glycol_adds_up() =>
        Gen.Select(Gen.Double[1, 40], Gen.Double[0.05, 1], Gen.Double[0, 60], Gen.Double[0, 60], Gen.Double[20, 100]).Sample((capacity, share, now, target, strength) =>
        {
            var refill = Refill.Of(capacity, capacity * share, now, target, strength).Value!;
            Assert.Equal(refill.DrainedLitres, refill.Strong + refill.Water, 1e-9);
            Assert.True(refill.Strong >= 0 && refill.Water >= 0);
            Assert.Equal(refill.ResultPercent * capacity, (now * refill.LeftLitres) + (strength * refill.Strong), 1e-6);
            if (refill.Reachable)
            {
                Assert.Equal(target, refill.ResultPercent, 1e-6);
            }
        });

    // The number of drains is the one that carrying them out one by one arrives at.
    [Fact]
    public void As_many_drains_as_it_takes_when_done_one_by_one() =>
        Gen.Select(Gen.Double[0.1, 0.95], Gen.Double[0, 60], Gen.Int[1, 60], Gen.Int[20, 100]).Sample((share, now, target, strength) =>
        {
            const double Capacity = 10;
            if (Refill.Of(Capacity, Capacity * share, now, target, strength).Value! is not { DrainsNeeded: { } drains and < 200, NeverExactly: false })
            {
                return;
            }

            var done = 0;
            Refill step;
            do
            {
                step = Refill.Of(Capacity, Capacity * share, now, target, strength).Value!;
                now = step.ResultPercent;
                done++;
            }
            while (!step.Reachable && done < 500);
            Assert.Equal(drains, done);
        });

    [Fact]
    public void Four_litres_of_weak_mix_stay_in_a_ten_litre_system()
    {
        var refill = Refill.Of(10, 6, 30, 50).Value!;
        Assert.Equal(3.8, refill.Strong, 1e-9);
        Assert.Equal(2.2, refill.Water, 1e-9);
        Assert.True(refill.Reachable);
    }

    [Fact]
    public void Ready_mix_of_the_target_only_nears_it()
    {
        var refill = Refill.Of(10, 6, 30, 50, 50).Value!;
        Assert.False(refill.Reachable);
        Assert.True(refill.NeverExactly);

        // 50 - 20 · 0.4^n: 42, 46.8, 48.72, 49.49.
        Assert.Equal(4, refill.DrainsNeeded);
    }

    [Fact]
    public void Ready_mix_too_weak_spoils_a_mix_that_is_too_strong() => Assert.Null(Refill.Of(10, 8, 46, 43, 20).Value!.DrainsNeeded);

    // By hand: a third comes out each time. All water makes 58 into 38.7, and from there not even ready-mix alone holds 37 (25.8 + 8.3 = 34.1).
    // No thinner than 25 + (37 - 25) / (2/3) = 43 can be brought to 37 by the next.
    [Fact]
    public void A_mix_too_strong_is_not_thinned_past_what_weak_ready_mix_can_mend()
    {
        var first = Refill.Of(12, 4, 58, 37, 25).Value!;
        Assert.Equal((false, 2), (first.Reachable, first.DrainsNeeded));
        Assert.Equal(43, first.ResultPercent, 1e-9);
        var second = Refill.Of(12, 4, first.ResultPercent, 37, 25).Value!;
        Assert.True(second.Reachable);
        Assert.Equal(37, second.ResultPercent, 1e-9);
    }

    // By hand: 35 % comes out each time. After one drain the mix is between 39 and 40.8, after two between 25.4 and 28.2: 37 is jumped over.
    [Fact]
    public void A_target_between_two_drains_is_never_reached() => Assert.Null(Refill.Of(10, 3.5, 60, 37, 5).Value!.DrainsNeeded);

    [Fact]
    public void Ready_mix_too_weak_for_the_target_never_reaches_it() => Assert.Null(Refill.Of(10, 6, 30, 50, 40).Value!.DrainsNeeded);

    [Theory]
    [InlineData(0, 1, 30, 50)]
    [InlineData(10, 11, 30, 50)]
    [InlineData(10, 0, 30, 50)]
    [InlineData(10, 5, 130, 50)]
    [InlineData(10, 5, 30, double.NaN)]
    public void Volumes_and_strengths_that_cannot_be_are_refused(double capacity, double drained, double now, double target) =>
        Assert.NotNull(Refill.Of(capacity, drained, now, target).Sentence);

    // Against trying every split of the drains on a grid: none leaves as little with less fluid poured.
    [Fact]
    public void No_other_flush_with_as_many_drains_pours_less() =>
        Gen.Select(Gen.Double[3, 10], Gen.Double[3, 40]).Sample(
            (drain, old) =>
            {
                const double Capacity = 10;
                if (FlushPlan.Of(Capacity, drain, old, 0.3 * drain / Capacity * 100).Value is not { } plan || plan.Steps.Count > 3)
                {
                    return;
                }

                Assert.True(plan.Steps[^1].OldPercent <= old + 1e-9);
                Assert.All(plan.Steps, step => Assert.True(step.DrainLitres <= drain + 1e-9 && step.WaterLitres >= -1e-9));
                var poured = plan.WaterLitres + plan.StrongLitres;
                const int Grid = 24;
                double[] sizes = [.. Enumerable.Range(0, Grid + 1).Select(i => drain * i / Grid)];
                foreach (var (a, b, c) in sizes.SelectMany(a => sizes.SelectMany(b => sizes.Select(c => (a, b, c)))))
                {
                    if ((1 - (a / Capacity)) * (1 - (b / Capacity)) * (1 - (c / Capacity)) * 100 <= old && plan.Steps.Count > 1)
                    {
                        Assert.True(a + b + c >= poured - 1e-9, $"{a} + {b} + {c} pours less than {poured}");
                    }
                }
            },
            iter: 40);

    [Fact]
    public void A_flush_says_what_does_not_fit_at_last() =>
        Assert.Contains("5 L of concentrate", FlushPlan.Of(10, 4, 5, 50).Sentence);

    [Fact]
    public void Whole_containers_are_enough_and_least_by_trying_all() =>
        Gen.Select(Gen.Int[1, 1500], Gen.Int[10, 500].Array[1, 3]).Sample(
            (need, sizes) =>
            {
                var bought = Containers.ToBuy(need / 100.0, [.. sizes.Select(size => size / 100.0)]);
                var volume = bought.Zip(sizes, (count, size) => count * size).Sum();
                var best = int.MaxValue;
                void Try(int at, int sum)
                {
                    if (sum >= need || at == sizes.Length)
                    {
                        best = sum >= need ? Math.Min(best, sum) : best;
                        return;
                    }

                    for (var next = sum; next < need + sizes[at]; next += sizes[at])
                    {
                        Try(at + 1, next);
                    }
                }

                Try(0, 0);
                Assert.Equal(best, volume);
            },
            iter: 60);

    [Theory]
    [InlineData("OAT", "OAT", null)]
    [InlineData("OAT", "HOAT", "do not mix")]
    [InlineData("Si-OAT long life", "P-OAT", "do not mix")]
    [InlineData("green", "OAT", "colour says nothing")]
    [InlineData("maker's own A", "maker's own B", "not known")]
    [InlineData("OAT brand one", "OAT brand two", "approvals")]
    public void Mixing_is_warned_of_by_label_never_by_colour(string inside, string poured, string? warning)
    {
        if (warning is null)
        {
            Assert.Null(CoolantLabel.Warning(inside, poured));
        }
        else
        {
            Assert.Contains(warning, CoolantLabel.Warning(inside, poured));
        }
    }
}
