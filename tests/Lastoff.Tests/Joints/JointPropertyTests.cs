using CsCheck;
using Lastoff.Core.Joints;

namespace Lastoff.Tests.Joints;

/// <summary>What must hold for any bolt, friction and pattern.</summary>
public class JointPropertyTests
{
    private static readonly ScrewThread[] Threads = [.. ThreadTable.All.Where(t => t.IsMetric && t.Diameter_mm <= 39)];

    private static readonly Gen<Tightening> AnyBolt =
        Gen.Select(OneOf(Threads), OneOf("4.6", "5.8", "8.8", "10.9", "12.9"), Gen.Double[0.03, 0.45], Gen.Double[0.03, 0.45],
            (thread, mark, a, b) => Given.Bolt(thread.Designation, mark, Math.Min(a, b), Math.Max(a, b)));

    [Fact]
    public void No_friction_within_the_range_goes_beyond_the_interval() =>
        Gen.Select(AnyBolt, Gen.Double[0.1, 1.1], Gen.Double.Unit, Gen.Double.Unit).Sample((bolt, share, atThread, atHead) =>
        {
            double Within(Friction friction, double at) => friction.Range.Low + at * (friction.Range.High - friction.Range.Low);
            var torque = Torque.FromNewtonMetres(share * bolt.TorqueMax.NewtonMetres);
            var whole = bolt.At(torque);
            var (muThread, muHead) = (Within(bolt.ThreadFriction, atThread), Within(bolt.HeadFriction, atHead));
            var one = (bolt with { ThreadFriction = Given.Friction(muThread, muThread), HeadFriction = Given.Friction(muHead, muHead) }).At(torque);
            Assert.Equal(YieldReach.Below, whole.Yield);
            Assert.InRange(one.Utilisation!.Value, 0, whole.Utilisation!.Value * (1 + 1e-9));
            Assert.InRange(one.PreloadLow_N!.Value, whole.PreloadLow_N!.Value * (1 - 1e-9), whole.PreloadHigh_N!.Value * (1 + 1e-9));
        });

    [Fact]
    public void The_limit_torque_just_reaches_the_limit() => AnyBolt.Sample(bolt =>
    {
        Assert.Equal(1, bolt.At(bolt.TorqueMax).Utilisation!.Value, 1e-9);
        Assert.Equal(YieldReach.Below, bolt.At(bolt.TorqueMax).Yield);
        var far = bolt.At(Torque.FromNewtonMetres(100 * bolt.TorqueMax.NewtonMetres));
        Assert.Equal(YieldReach.PastAtAnyFriction, far.Yield);
        Assert.Null(far.PreloadLow_N);
        Assert.Null(far.PreloadHigh_N);
        Assert.Null(far.Utilisation);
    });

    [Fact]
    public void From_preload_to_torque_and_back() => Gen.Select(AnyBolt, Gen.Double[0.1, 1]).Sample((bolt, share) =>
    {
        var preload = share * bolt.PreloadMax_N.Low;
        var torque = bolt.TorqueFor_Nm(preload);
        Assert.Equal(preload, bolt.At(Torque.FromNewtonMetres(torque.Low)).PreloadHigh_N!.Value, 1e-6 * preload);
        Assert.Equal(torque.Low, bolt.TorqueReaching(preload).NewtonMetres, 1e-9 * torque.Low);
    });

    [Fact]
    public void At_the_needed_length_the_bolt_breaks_as_the_weaker_thread_strips() =>
        Gen.Select(OneOf([.. ThreadTable.All]), Gen.Double[400, 1220], Gen.Double[100, 1000]).Sample((thread, bolt, boss) =>
        {
            var needed = Given.Stripping(thread, 2 * thread.Diameter_mm, bolt, boss).Needed_mm;
            if (needed >= thread.Pitch_mm && needed < 10 * thread.Diameter_mm)
            {
                Assert.Equal(1, Given.Stripping(thread, needed, bolt, boss).SafetyFactor(thread.StressArea_mm2 * bolt), 1e-9);
            }
        });

    [Fact]
    public void A_circle_is_tightened_crosswise()
    {
        for (var bolts = 1; bolts <= 60; bolts++)
        {
            var order = TighteningOrder.Of(Given.Circle(bolts));
            Assert.Equal(Enumerable.Range(0, bolts), order.Order());
            if (bolts % 2 == 0)
            {
                Assert.All(order.Chunk(2), pair => Assert.Equal(bolts / 2, Math.Abs(pair[0] - pair[1])));
            }

            if (bolts % 4 == 0)
            {
                Assert.Equal([0, bolts / 4, bolts / 2, 3 * bolts / 4], order.Take(4).Order());
            }
        }
    }

    [Fact]
    public void Turning_moving_and_sizing_a_circle_changes_no_order() =>
        Gen.Select(Gen.Int[3, 30], Gen.Double[0, 6], Gen.Double[-500, 500], Gen.Double[30, 900]).Sample((bolts, turn, move, radius) =>
        {
            var turned = Given.Holes([.. Enumerable.Range(0, bolts).Select(i =>
                (move + radius * Math.Sin(turn + 2 * Math.PI * i / bolts), -move + radius * Math.Cos(turn + 2 * Math.PI * i / bolts)))]);
            Assert.Equal(PatternShape.Circle, turned.Shape);
            Assert.Equal(TighteningOrder.Of(Given.Circle(bolts)), TighteningOrder.Of(turned));
        });

    [Fact]
    public void Other_patterns_go_from_the_middle_outwards() =>
        Gen.Select(Gen.Int[-200, 200], Gen.Int[-200, 200]).Array[1, 24].Where(places => places.Distinct().Count() == places.Length).Sample(places =>
        {
            var pattern = HolePattern.From([.. places.Select((place, i) => new Hole($"{i}", place.Item1, place.Item2))], PatternShape.Outward).Or(Given.Fail<HolePattern>);
            var order = TighteningOrder.Of(pattern);
            Assert.Equal(Enumerable.Range(0, places.Length), order.Order());
            var distances = order.Select(pattern.FromCentre).ToArray();
            Assert.All(distances.Zip(distances.Skip(1)), pair => Assert.True(pair.Second >= pair.First - 1e-3));
            Assert.Equal(order.Reverse(), TighteningOrder.Loosening(pattern));
        });

    [Fact]
    public void A_grid_of_holes_is_no_circle_and_four_corners_are() => Assert.Multiple(
        () => Assert.Equal(PatternShape.Outward, Given.Holes((0, 0), (40, 0), (80, 0), (0, 60), (40, 60), (80, 60)).Shape),
        () => Assert.Equal(PatternShape.Outward, Given.Holes((0, 0), (40, 0), (80, 0)).Shape),
        () => Assert.Equal(PatternShape.Circle, Given.Holes((0, 0), (100, 0), (100, 60), (0, 60)).Shape),
        () => Assert.Equal([0, 2, 3, 1], TighteningOrder.Of(Given.Holes((0, 0), (100, 0), (100, 60), (0, 60)))));

    [Fact]
    public void Neighbours_on_a_circle_and_in_a_grid_are_the_ones_beside()
    {
        var circle = Given.Circle(9).StepsApart();
        var grid = Given.Holes((0, 0), (40, 0), (80, 0), (0, 60), (40, 60), (80, 60)).StepsApart();
        Assert.Multiple(
            () => Assert.Equal([0, 1, 2, 3, 4, 4, 3, 2, 1], Enumerable.Range(0, 9).Select(i => circle[0, i])),
            () => Assert.Equal([0, 1, 2, 1, 2, 3], Enumerable.Range(0, 6).Select(i => grid[0, i])));
    }

    [Fact]
    public void No_bolt_is_ever_above_the_target_or_slack_below_nothing_and_the_last_one_stands() =>
        Gen.Select(Gen.Int[1, 16], Gen.Double[0, 0.45], Gen.Double[0, 0.2], Gen.Int[1, 6]).Sample((bolts, near, next, passes) =>
        {
            var pattern = Given.Circle(bolts);
            var order = TighteningOrder.Of(pattern);
            var model = ElasticInteraction.Of(pattern, [near, next]).Or(Given.Fail<ElasticInteraction>);
            var after = model.After(order, Enumerable.Repeat(1.0, passes));
            Assert.All(after, preload => Assert.All(preload, p => Assert.InRange(p, 0, 1)));
            Assert.All(after, preload => Assert.Equal(1, preload[order[^1]]));
        });

    [Fact]
    public void Weak_interaction_comes_within_the_band_and_not_a_pass_sooner() =>
        Gen.Select(Gen.Int[2, 16], Gen.Double[0.01, 0.3], Gen.Double[0, 0.1], Gen.Double[0.005, 0.1]).Sample((bolts, near, next, band) =>
        {
            var pattern = Given.Circle(bolts);
            var order = TighteningOrder.Of(pattern);
            var model = ElasticInteraction.Of(pattern, [near, next]).Or(Given.Fail<ElasticInteraction>);
            var passes = model.PassesTo(order, band).Or(Given.Fail<int>);
            var after = model.After(order, Enumerable.Repeat(1.0, passes));
            Assert.All(after[^1], p => Assert.True(p >= 1 - band - 2e-9));
            Assert.All(after.SkipLast(1), preload => Assert.Contains(preload, p => p < 1 - band));
        });

    private static Gen<T> OneOf<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);
}
