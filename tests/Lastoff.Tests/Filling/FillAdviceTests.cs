using CsCheck;
using Lastoff.Core.Filling;
using Lastoff.Core.Fluids;

namespace Lastoff.Tests.Filling;

public class FillAdviceTests
{
    private static FillQuestion Question(double drained = 6, double now = 30, double target = 50, double strength = 100, params IReadOnlyList<double> bottles) =>
        new(Glycol.Ethylene, 10, drained, now, target, strength, Pressure.FromKilopascals(204.3), bottles);

    // By hand: 4 L of 30 % stay; 3.8 L of concentrate bring 5 L of glycol into 10 L. Freezing and boiling as `lastoff coolant mix` has them, whose
    // figures are checked against published tables.
    [Fact]
    public void It_says_what_to_pour_what_that_makes_and_what_to_buy()
    {
        var advice = FillAdvice.Of(Question(bottles: [1, 1.5])).Value!;
        Assert.Equal((3.8, 2.2), (advice.Refill.Strong, advice.Refill.Water), new Within(1e-9));
        Assert.Equal(Coolant.FromVolumePercent(Glycol.Ethylene, 50).Value!.Freezing.Celsius, advice.Mix.Freezing.Celsius, 1e-9);
        Assert.Equal(advice.Mix.BoilingAt(Pressure.FromKilopascals(204.3)), advice.Boiling);
        // 1 + 1.5 + 1.5 = 4 L is the least that is enough.
        Assert.Equal([1, 2], advice.ToBuy);
    }

    [Fact]
    public void What_really_went_in_makes_the_mix_on_record() =>
        Gen.Select(Gen.Double[0.5, 10], Gen.Double[0, 55], Gen.Double[10, 55], Gen.Double[0.1, 12]).Sample((drained, now, target, litres) =>
        {
            if (FillAdvice.Of(Question(drained, now, target)).Value is not { } advice)
            {
                return;
            }

            var poured = advice.Pour("OAT", litres);
            // The glycol in the machine, counted once more: what stayed and what came.
            var glycol = ((10 - drained) * now) + (litres * 100 * advice.Refill.Strong / drained);
            Assert.Equal(glycol / (10 - drained + litres), poured.MixPercent!.Value, 0.051);
            Assert.Equal(now, poured.BeforePercent!.Value, 0.051);
        });

    // By hand: 3 of 10 L are out, and 7 L of 20 % stay. 3 L of concentrate make 44 %, and 10 (1 - 50/56) = 1.0714 L more make 50: 4.0714 L in all.
    [Fact]
    public void What_one_drain_does_not_reach_takes_a_plan_and_the_record_has_all_of_it()
    {
        var advice = FillAdvice.Of(Question(drained: 3, now: 20, bottles: [1, 5])).Value!;
        Assert.Equal([3, 1.0714], advice.Refill.Plan!.Steps.Select(step => Math.Round(step.StrongLitres, 4)));
        Assert.Equal(Coolant.FromVolumePercent(Glycol.Ethylene, 50).Value!.Freezing.Celsius, advice.Mix.Freezing.Celsius, 1e-9);
        Assert.Equal([0, 1], advice.ToBuy);
        var poured = advice.PourAll("OAT")!;
        Assert.Equal((100, 20, 50, 2), (poured.Percent, poured.BeforePercent, poured.MixPercent, poured.Fills));
    }

    [Fact]
    public void A_flush_ends_at_the_target()
    {
        var advice = FillAdvice.Of(Question()).Value!;
        var plan = advice.Question.Flush(95).Value!;
        var poured = advice.PourFlush("OAT", plan);
        Assert.Equal((50, 5), (poured.MixPercent, Math.Round(plan.Steps[^1].OldPercent, 9)));
        Assert.Equal(100 * plan.StrongLitres / (plan.StrongLitres + plan.WaterLitres), poured.Percent!.Value, 0.051);
    }

    // Against carrying it all out many times, each time read and measured a little wrong: two standard deviations are 2 points of what is read, 2 % of each
    // drain and 5 % of the capacity.
    [Theory]
    [InlineData(6, 30, 50)]
    [InlineData(3, 20, 50)]
    [InlineData(3, 58, 37)]
    public void The_mix_is_off_by_as_much_as_is_said_after_one_drain_after_several_and_after_a_flush(double drained, double now, double target)
    {
        var advice = FillAdvice.Of(Question(drained, now, target)).Value!;
        var steps = advice.Refill.Plan!.Steps.Select(step => (step.DrainLitres, step.StrongLitres)).ToList();
        Assert.Equal(TwoDeviations(now, steps), advice.PlusMinusPercent, 0.04 * advice.PlusMinusPercent);
        Assert.Equal(advice.PlusMinusPercent, advice.PourAll("OAT")!.PlusMinusPercent!.Value, 0.051);
        if (advice.Question.Flush(80).Value is { } flush)
        {
            var expected = TwoDeviations(now, [.. flush.Steps.Select(step => (step.DrainLitres, step.StrongLitres))]);
            Assert.Equal(expected, advice.PourFlush("OAT", flush).PlusMinusPercent!.Value, 0.051 + (0.04 * expected));
        }
    }

    private static double TwoDeviations(double now, IReadOnlyList<(double Drain, double Strong)> fillings)
    {
        var random = new Random(7);
        const int Times = 20_000;
        var (sum, squares) = (0.0, 0.0);
        for (var time = 0; time < Times; time++)
        {
            var capacity = 10 * (1 + (0.025 * Normal()));
            var percent = now + Normal();
            foreach (var (drain, strong) in fillings)
            {
                var out_L = drain * (1 + (0.01 * Normal()));
                percent = ((percent * (capacity - out_L)) + (100 * strong)) / capacity;
            }

            sum += percent;
            squares += percent * percent;
        }

        return 2 * Math.Sqrt((squares / Times) - (sum / Times * (sum / Times)));

        // Box and Muller's way from two even numbers to a normal one.
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
    }

    [Fact]
    public void What_nobody_measured_makes_no_mix_on_record() => Assert.Null(FillAdvice.Of(Question()).Value!.Pour("OAT", null).MixPercent);

    [Theory]
    [InlineData(11, 30, 50, "What was drained is more than nothing and at most the capacity")]
    [InlineData(6, 30, 80, "outside the table")]
    public void What_cannot_be_gets_a_sentence(double drained, double now, double target, string sentence) =>
        Assert.Contains(sentence, FillAdvice.Of(Question(drained, now, target)).Sentence);

    [Fact]
    public void No_bottle_holds_nothing() => Assert.Equal(Containers.OutOfRange, FillAdvice.Of(Question(bottles: 0)).Sentence);

    private sealed class Within(double tolerance) : IEqualityComparer<(double, double)>
    {
        public bool Equals((double, double) x, (double, double) y) => Math.Abs(x.Item1 - y.Item1) <= tolerance && Math.Abs(x.Item2 - y.Item2) <= tolerance;

        public int GetHashCode((double, double) obj) => 0;
    }
}
