using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Maps;

/// <summary>What a map says of tightening, read, and held against the computed limits.</summary>
public class TightnessTests
{
    [Fact]
    public void Everything_it_can_say_is_read()
    {
        var joint = Joint("""
            {class: 8.8, friction: 0.10..0.14, engaged: 16 mm, into: aluminium, boss_strength: 35 ksi, hold: 8 kN, condition: oiled, source: the maker, holes: {circle: 4},
             passes: [snug, 50 %, 100 %, round], interaction: [0.2, 0.05]}
            """);
        var tighten = joint.Tighten!;
        Assert.Equal("8.8", tighten.Strength!.Name);
        Assert.Equal(new Interval(0.10, 0.14), tighten.Friction!.Value.Range);
        Assert.Equal(16, tighten.Engaged_mm);
        // 1 ksi is 6.894757 MPa (exact definitions of pound, inch and standard gravity).
        Assert.Equal(241.3165, tighten.Into!.Tensile_MPa!.Value, 1e-3);
        Assert.Equal(8000, tighten.Hold_N);
        Assert.Equal(new StatedCondition(ThreadCondition.Oiled, "the maker"), tighten.Condition);
        Assert.Equal([0, 2, 1, 3], tighten.Order);
        Assert.Equal([0, 1, 2, 3], joint.Passes[^1].Order);
        Assert.Equal(["1", "2", "3", "4"], joint.Bolts);
        Assert.Equal([0.2, 0.05], tighten.Interaction);
    }

    [Fact]
    public void The_makers_order_outranks_the_computed_one() =>
        Assert.Equal([3, 0, 1, 2], Joint("{holes: {circle: 4, order: [4, 1, 2, 3]}, passes: [100 %]}").Passes[0].Order);

    [Theory]
    [InlineData("{row: 4}", new[] { 1, 2, 0, 3 })]
    [InlineData("{grid: [4, 1]}", new[] { 1, 2, 0, 3 })]
    // Four corners lie on a circle: crosswise, beginning with the first.
    [InlineData("{grid: [2, 2]}", new[] { 0, 3, 1, 2 })]
    [InlineData("{places_mm: [[0, 0], [40, 0], [0, 30], [40, 30]]}", new[] { 0, 3, 2, 1 })]
    public void A_row_is_tightened_from_the_middle_and_four_corners_across(string holes, int[] order) =>
        Assert.Equal(order, Joint($"{{holes: {holes}, passes: [100 %]}}").Passes[0].Order);

    [Fact]
    public void A_map_without_it_says_nothing_and_is_judged_by_nothing()
    {
        var joint = MapReader.Read("format: 1\nname: x\ntitle: X\nparts: [{id: p, name: P}]\njoints: [{id: j, name: J, kind: bolt, holds: [p], torque: 20 N·m}]\n", "x").Map!.Joints[0];
        Assert.Null(joint.Tighten);
        Assert.Empty(joint.Passes);
        Assert.Equal((null, null), (JointAdvice.Of(joint).Judgement, JointAdvice.Of(joint).WhyNot));
    }

    // M8 8.8 at friction 0.10 to 0.14 yields in the published range of about 22 to 28 N·m (VDI 2230:2001 tables); the boss strengths are low castings.
    [Theory]
    [InlineData("20 N·m", "engaged: 20 mm, into: aluminium", null)]
    [InlineData("50 N·m", "engaged: 40 mm, into: aluminium", FindingKind.WouldYield)]
    [InlineData("20 N·m", "engaged: 8 mm, into: aluminium", FindingKind.WouldStrip)]
    [InlineData("10 N·m", "hold: 12 kN", FindingKind.TooLowToHold)]
    [InlineData("20 in·lb", "into: plastic", FindingKind.FarBelow)]
    public void The_makers_figure_stands_and_a_disagreement_is_said(string torque, string stated, FindingKind? expected)
    {
        var advice = JointAdvice.Of(Joint($"{{class: 8.8, friction: 0.10..0.14, {stated}}}", torque));
        Assert.Equal(expected is { } kind ? [kind] : [], advice.Disagreements.Select(finding => finding.Kind));
        Assert.Equal(advice.Joint.Torque, advice.Judgement!.Maker);
        Assert.All(advice.Disagreements, finding => Assert.StartsWith(advice.Judgement.Maker.ToString(), finding.Sentence, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("class: 8.8, friction: 0.12, fastener: prevailing_torque", "A prevailing-torque nut")]
    [InlineData("class: 8.8, friction: 0.12, fastener: thread_forming", "A thread-forming")]
    [InlineData("class: 8.8, friction: 0.12, fastener: tightened_to_yield", "A bolt tightened to or past its yield")]
    [InlineData("class: 8.8, friction: 0.12, passes: [100 %, 90 deg]", "Its last stage is a turn")]
    [InlineData("class: 8.8", "state the friction too")]
    [InlineData("friction: 0.12", "state the class of its fasteners too")]
    [InlineData("class: 8.8, friction: 0.12, engaged: 1 mm, into: steel", "less than one turn")]
    public void What_cannot_be_computed_is_a_sentence(string stated, string says) =>
        Assert.Contains(says, JointAdvice.Of(Joint($"{{{stated}}}")).WhyNot, StringComparison.Ordinal);

    [Fact]
    public void The_demo_maps_show_a_circle_a_row_a_cover_torque_and_angle_and_one_disagreement()
    {
        var joints = Demo.Map("light-van").Joints.Concat(Demo.Map("orchard-sprayer-pump").Joints).ToList();
        Assert.Contains(joints, joint => joint.Tighten?.Holes?.Shape == PatternShape.Circle && joint.Passes.Count > 2);
        Assert.Contains(joints, joint => joint.Tighten?.Holes is { Shape: PatternShape.Outward, Holes.Count: 5 } && joint.Passes.Count > 2);
        Assert.Contains(joints, joint => joint.Tighten?.Holes is { Shape: PatternShape.Outward } pattern && pattern.Holes.Select(h => h.Y_mm).Distinct().Count() > 1 && joint.Passes.Count > 1);
        Assert.Contains(joints, joint => joint.Passes.Any(pass => pass.Kind == PassKind.Angle));
        Assert.Equal(["pump-foot-bolts"], joints.Select(JointAdvice.Of).Where(advice => advice.Disagreements.Count > 0).Select(advice => advice.Joint.Id));
    }

    private static Joint Joint(string tighten, string torque = "20 N·m")
    {
        var reading = MapReader.Read($"format: 1\nname: x\ntitle: X\nparts: [{{id: p, name: P}}]\njoints:\n- {{id: j, name: J, kind: bolt, count: 4, holds: [p], thread: M8x1.25, torque: {torque}, tighten: {tighten.ReplaceLineEndings(" ")}}}\n", "x");
        Assert.Equal([], reading.Faults.Select(reading.Describe));
        return reading.Map!.Joints[0];
    }
}
