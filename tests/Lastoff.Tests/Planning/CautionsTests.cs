using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Maps;

namespace Lastoff.Tests.Planning;

public class CautionsTests
{
    [Fact]
    public void Of_a_long_caution_the_first_sentence_of_each_that_it_is_made_of_is_seen()
    {
        var net = OperationNet.From(Demo.Map("orchard-sprayer-pump"));
        var (lead, more) = Cautions.Parted(net, Step(net, StepKind.MakeSafe, "line-pressure", liftGoesUp: false));
        Assert.Equal("Residue of plant protection products on everything. A fine jet goes through skin: never feel for a leak by hand.", lead);
        Assert.Equal("Rinse first; gloves, goggles and apron on. Keep the washings out of drains and ditches. Lower or prop everything raised, then let the pressure down; stored pressure remains in accumulators.", more);
    }

    [Fact]
    public void A_short_caution_and_one_that_nobody_knows_are_seen_whole()
    {
        var net = OperationNet.From(Demo.Map("orchard-sprayer-pump"));
        Assert.Null(Cautions.Parted(net, Step(net, StepKind.MakeSafe, "pump-oil", liftGoesUp: false)).More);
        var other = Step(net, StepKind.MakeSafe, "line-pressure", liftGoesUp: false) with { Caution = string.Join(" ", Enumerable.Repeat("As an older map had it.", 20)) };
        Assert.Equal((other.Caution, null), Cautions.Parted(net, other));
    }

    [Theory]
    [InlineData("shield-knobs", JointKind.Nut, false)]
    [InlineData("shield-knobs", JointKind.Hose, true)]
    [InlineData("head-bolts", JointKind.Bolt, true)]
    [InlineData("regulator-feed", JointKind.Hose, true)]
    public void No_pressure_is_held_by_what_a_bare_hand_screws_off(string joint, JointKind kind, bool mayCome)
    {
        var map = Demo.Map("orchard-sprayer-pump");
        var net = OperationNet.From(map with { Joints = [.. map.Joints.Select(other => other.Id == joint ? other with { Kind = kind } : other)] });
        Assert.Equal(mayCome, Step(net, StepKind.Undo, joint, liftGoesUp: false).Caution?.Contains("Crack it open slowly", StringComparison.Ordinal) ?? false);
    }

    [Theory]
    [InlineData("shield-knobs", true)]
    [InlineData("regulator-feed", true)]
    [InlineData("regulator-hoses", true)]
    [InlineData("suction-hose", false)]
    public void How_tight_is_asked_of_whatever_is_screwed_up(string joint, bool isThreaded) =>
        Assert.Equal(isThreaded, OperationNet.From(Demo.Map("orchard-sprayer-pump")).Joints[joint].IsThreaded);

    [Theory]
    [InlineData("orchard-sprayer-pump")]
    [InlineData("light-van")]
    public void No_sentence_of_a_caution_is_lost(string map)
    {
        var net = OperationNet.From(Demo.Map(map));
        var targets = net.Map.Supplies.Select(supply => (StepKind.MakeSafe, supply.Id))
            .Concat(net.Map.Supplies.Select(supply => (StepKind.Restore, supply.Id)))
            .Concat(net.Map.Joints.Select(joint => (StepKind.Undo, joint.Id)))
            .Concat(net.Map.Parts.Select(part => (StepKind.TakeOff, part.Id)))
            .Concat(net.Map.Proofs.Select(proof => (StepKind.Prove, proof.Id)));
        foreach (var (kind, target) in targets)
        {
            foreach (var liftGoesUp in new[] { false, true })
            {
                var step = Step(net, kind, target, liftGoesUp);
                var (lead, more) = Cautions.Parted(net, step);
                Assert.Equal(Sentences(step.Caution ?? ""), Sentences($"{lead} {more}".Trim()));
                Assert.StartsWith(step.Caution?.Split(". ")[0] ?? "", lead, StringComparison.Ordinal);
            }
        }

        static IEnumerable<string> Sentences(string text) => text.Split(". ").Select(sentence => sentence.TrimEnd('.')).Order(StringComparer.Ordinal);
    }

    private static PlanStep Step(OperationNet net, StepKind kind, string target, bool liftGoesUp) =>
        new(kind, target, target, Tool.Hand, Position.Above, 0, 0, Cautions.For(net, kind, target, liftGoesUp), "");
}
