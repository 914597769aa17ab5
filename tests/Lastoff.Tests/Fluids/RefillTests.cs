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

    // Carried out step by step by the glycol that is in: the plan ends at the target, and no drain is larger than the first.
    [Fact]
    public void A_plan_carried_out_step_by_step_ends_at_the_target() =>
        Gen.Select(Gen.Double[0.15, 0.95], Gen.Double[0, 60], Gen.Int[1, 60], Gen.Int[20, 100]).Sample((share, now, target, strength) =>
        {
            const double Capacity = 10;
            var refill = Refill.Of(Capacity, Capacity * share, now, target, strength).Value!;
            if (refill.Plan is not { } plan)
            {
                // Too weak a ready-mix never gets there, and nothing else fails but the number of drains.
                Assert.True(strength <= target || Math.Abs(Math.Log(1 - share)) < 0.4, $"{share} {now} {target} {strength}");
                return;
            }

            var glycol = now * Capacity;
            foreach (var step in plan.Steps)
            {
                Assert.InRange(step.DrainLitres, 0, (Capacity * share) + 1e-9);
                Assert.Equal(step.DrainLitres, step.StrongLitres + step.WaterLitres, 1e-9);
                glycol = (glycol * (1 - (step.DrainLitres / Capacity))) + (step.StrongLitres * strength);
                Assert.Equal(step.Percent, glycol / Capacity, 1e-6);
            }

            Assert.Equal(target, plan.Percent, refill.NeverExactly ? 1 + 1e-9 : 1e-6);
        });

    // Against trying every second and third drain on a grid, each filled with the strong fluid or with water: none ends within half a point with less.
    [Fact]
    public void No_other_plan_of_three_drains_pours_less() =>
        Gen.Select(Gen.Double[2, 8], Gen.Double[0, 60], Gen.Int[5, 60]).Sample(
            (drained, now, target) =>
            {
                const double Capacity = 10;
                const int Grid = 40;
                var first = Refill.Of(Capacity, drained, now, target).Value!;
                if (first.Plan is not { Steps.Count: 2 or 3 } plan)
                {
                    return;
                }

                double[] sizes = [.. Enumerable.Range(0, Grid + 1).Select(i => drained * i / Grid)];
                foreach (var (a, b) in sizes.SelectMany(a => sizes.Select(b => (a, b))))
                {
                    foreach (var poured in new[] { 0, 100 })
                    {
                        var end = poured + ((first.ResultPercent - poured) * (1 - (a / Capacity)) * (1 - (b / Capacity)));
                        if (target > now ? end >= target : end <= target)
                        {
                            Assert.True(drained + a + b >= plan.PouredLitres - 1e-9, $"{a} and {b} pour less than {plan.PouredLitres}");
                        }
                    }
                }
            },
            iter: 60);

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

        // 50 - 20 · 0.4^n: 42, 46.8, 48.72, and 49 is near enough: the fourth drain is a small one, 10 (1 - 1 / 1.28).
        Assert.Equal(4, refill.Plan!.Steps.Count);
        Assert.Equal(2.1875, refill.Plan.Steps[3].DrainLitres, 1e-9);
        Assert.Contains("4 drains come within 1 %", refill.NotReached);
    }

    [Fact]
    public void Ready_mix_too_weak_spoils_a_mix_that_is_too_strong() => Assert.Null(Refill.Of(10, 8, 46, 43, 20).Value!.Plan);

    // By hand: a third comes out each time. All water makes 58 into 38.667, and 12 (1 - 37 / 38.667) = 0.517 L more of it make 37.
    [Fact]
    public void A_mix_too_strong_is_thinned_by_water_and_the_last_drain_is_a_small_one()
    {
        var plan = Refill.Of(12, 4, 58, 37, 25).Value!.Plan!;
        Assert.Equal([4, 0.51724], plan.Steps.Select(step => Math.Round(step.WaterLitres, 5)));
        Assert.Equal((0, 37), (plan.StrongLitres, Math.Round(plan.Percent, 9)));
    }

    // Water can thin a mix to just its target even if the mix that is poured is far weaker.
    [Fact]
    public void A_target_between_two_drains_is_met_by_a_smaller_one() => Assert.Equal(37, Refill.Of(10, 3.5, 60, 37, 5).Value!.Plan!.Percent, 1e-9);

    [Fact]
    public void Ready_mix_too_weak_for_the_target_never_reaches_it()
    {
        var refill = Refill.Of(10, 6, 30, 50, 40).Value!;
        Assert.Null(refill.Plan);
        Assert.Contains("pour something stronger", refill.NotReached);
    }

    [Fact]
    public void Too_many_drains_are_refused() => Assert.Contains("drain more at once", Refill.Of(10, 0.2, 10, 50).Value!.NotReached);

    // By hand: 6 of 10 L are out. What 60 % leave of 50 is 20; two more drains of 6 L each leave 3.2 and, the second being smaller, 5 % of the old:
    // 0.4 (1 - d / 10) 0.4 = 0.05 gives d = 6.875, more than 6, so it takes a third: 0.4^3 (1 - d / 10) = 0.05, d = 2.1875.
    [Fact]
    public void A_flush_goes_on_from_what_is_drained_and_counts_what_is_left_of_the_old()
    {
        var plan = FlushPlan.Of(10, 6, 5, 50, nowPercent: 30, isDrained: true).Value!;
        Assert.Equal([6, 2.1875, 6, 6], plan.Steps.Select(step => Math.Round(step.DrainLitres, 9)));
        Assert.Equal(5, plan.Steps[^1].OldPercent, 1e-9);
        // 5 L of glycol less 0.5 L of the old at 30 %.
        Assert.Equal(4.85, plan.StrongLitres, 1e-9);
    }

    // By hand: half a litre of concentrate for each litre at 50 %, so 5 of 10 L must go in although 3 L out would leave the 70 % that may stay; 5 L are
    // out and leave 50 %, and 3 L more make room for 3 L of concentrate, although 1 L more would leave the 45 %; and of 10 L at 40 % which may stay at
    // 90 %, x = 10 (60 - 40) / (100 - 40) is the drain after which just that much concentrate makes 60 %.
    [Theory]
    [InlineData(8, 70, 50, 0, false, 5)]
    [InlineData(5, 45, 30, 0, true, 8)]
    [InlineData(8, 90, 60, 40, false, 10 / 3.0)]
    public void The_last_drain_makes_room_for_what_must_go_in_and_no_more(double drain, double old, double target, double now, bool isDrained, double poured)
    {
        var plan = FlushPlan.Of(10, drain, old, target, nowPercent: now, isDrained: isDrained).Value!;
        Assert.Equal(poured, plan.WaterLitres + plan.StrongLitres, 1e-9);
        Assert.All(plan.Steps, step => Assert.True(step.WaterLitres >= 0));
    }

    // Against trying every split of the drains on a grid: none leaves as little, and has room for the strong fluid at last, with less fluid poured.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void No_other_flush_of_three_drains_pours_less(bool isDrained)
    {
        var isTried = new int[4];
        Gen.Select(Gen.Double[3, 9], Gen.Int[1, 3], Gen.Double[0.01, 0.99], Gen.Double[0, 1], Gen.Double[0, 60]).Sample(
            (drain, drains, part, share, now) =>
            {
                const double Capacity = 10;
                // What so many drains leave, the last being a part of one.
                var old = 100 * Math.Pow(1 - (drain / Capacity), drains - 1 + part);
                var target = share * drain / Capacity * 100;
                if (FlushPlan.Of(Capacity, drain, old, target, nowPercent: now, isDrained: isDrained).Value is not { } plan || plan.Steps.Count > 3)
                {
                    return;
                }

                isTried[plan.Steps.Count]++;
                Assert.True(plan.Steps[^1].OldPercent <= old + 1e-9);
                Assert.All(plan.Steps, step => Assert.True(step.DrainLitres <= drain + 1e-9 && step.WaterLitres >= 0));
                Assert.Equal(target * Capacity, (now * Capacity * plan.Steps[^1].OldPercent / 100) + (100 * plan.StrongLitres), 1e-6);
                var poured = plan.WaterLitres + plan.StrongLitres;
                const int Grid = 24;
                double[] sizes = [.. Enumerable.Range(0, Grid + 1).Select(i => drain * i / Grid)];
                foreach (var (a, b, c) in sizes.SelectMany(a => sizes.SelectMany(b => sizes.Select(c => (a, b, c)))).Where(three => !isDrained || three.a == drain))
                {
                    var left = (1 - (a / Capacity)) * (1 - (b / Capacity)) * (1 - (c / Capacity));
                    var strong = ((target * Capacity) - (now * Capacity * left)) / 100;
                    var last = c > 0 ? c : b > 0 ? b : a;
                    if (left * 100 <= old && strong >= 0 && strong <= last)
                    {
                        Assert.True(a + b + c >= poured - 1e-9, $"{a} + {b} + {c} pours less than {poured}");
                    }
                }
            },
            iter: 60, threads: 1);
        Assert.All(isTried[1..], tried => Assert.NotEqual(0, tried));
    }

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

    [Theory]
    [InlineData("pump oil SAE 40", true)]
    [InlineData("oil", true)]
    [InlineData("Pump oil SAE 30, five litres", false)]
    [InlineData("pump oil SA", false)]
    [InlineData("PUMP OIL SAE 30", false)]
    public void Another_label_than_the_maps_is_warned_of(string poured, bool isOther) => Assert.Equal(isOther, FluidLabel.Warning("pump oil SAE 30", poured) is not null);
}
