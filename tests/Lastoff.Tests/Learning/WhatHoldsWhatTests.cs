using Lastoff.Core.Learning;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Tests.Recording;

namespace Lastoff.Tests.Learning;

/// <summary>What a hose, a pipe and a lead hold that were told of before the first part came off, and what is said of them. The machine is invented.</summary>
public class WhatHoldsWhatTests
{
    private static readonly Map Learned = Read(
        "ignition lead off", "drained the hydraulic oil, 11 litres", "hose clip slackened, suction pipe off the pump", "bung in the pump inlet", "27 mm union on the pressure pipe undone",
        "guard off, 3 bolts 10 mm", "slackened 2 grub screws 4 mm", "coupling half off", "pump off, 4 bolts 13 mm", "shaft seal out");

    private static readonly OperationNet Net = OperationNet.From(Learned);

    private static readonly Plan Plan = Planner.Make(Net, Goal.Renewing("shaft-seal"), Net.Nothing, PlanLimits.AtOnce).Plan!;

    [Theory]
    [InlineData("union", "pump")]
    [InlineData("suction-pipe", "pump")]
    [InlineData("hose-clip", "pump")]
    [InlineData("guard-bolts", "guard")]
    public void A_line_is_on_the_part_that_others_are_on_and_not_on_the_guard_that_came_off_next(string joint, string part) => Assert.Equal([part], Net.Joints[joint].Holds);

    [Fact]
    public void Nothing_is_made_up_for_it() => Assert.DoesNotContain(Learned.Parts, part => part.Name.Contains("not recorded", StringComparison.Ordinal));

    [Fact]
    public void What_was_made_safe_comes_before_all_that_came_after_it() =>
        Assert.Equal([SupplyKind.Heat, SupplyKind.Hydraulic], Plan.Out.Take(2).Select(step => Net.Supplies[step.Target].Kind));

    [Fact]
    public void Where_no_part_is_known_to_have_lines_what_came_next_is_held_as_before() =>
        Assert.Equal(["cover"], Read("top hose off", "cover off, two 10 bolts", "pump off, two 13 bolts").Joints.Single(joint => joint.Kind == JointKind.Hose).Holds);

    [Fact]
    public void A_word_says_more_than_that() =>
        Assert.Contains("guard", Read("pressure pipe undone", "guard off, two 10 bolts", "pressure hose off the pump", "pump off, two 13 bolts", "pressure pipe was in the way of the guard").Joints.Single(joint => joint.Kind == JointKind.Pipe).Holds);

    [Theory]
    [InlineData("guard-bolts", false)]
    [InlineData("union", true)]
    [InlineData("suction-pipe", true)]
    public void Pressure_is_warned_of_where_a_line_is(string joint, bool isWarned) =>
        Assert.Equal(isWarned, CautionOf(StepKind.Undo, joint).Contains("Crack it open slowly", StringComparison.Ordinal));

    [Theory]
    [InlineData("pressure hose off the pump", true)]
    [InlineData("guard off", false)]
    public void Of_what_holds_a_part_that_a_line_is_on_it_is_said_as_well(string line, bool isWarned)
    {
        var map = Read("drained the hydraulic oil, 11 litres", line, "pump off, four 13 bolts");
        var net = OperationNet.From(map with { Joints = [.. map.Joints.Select(joint => joint with { Needs = [map.Supplies[0].Id] })] });
        Assert.Equal(isWarned, Cautions.For(net, StepKind.Undo, "pump-bolts", liftGoesUp: false)?.Contains("Crack it open slowly", StringComparison.Ordinal) ?? false);
    }

    [Theory]
    [InlineData(StepKind.Undo, "union", true, false)]
    // The bung is a step of its own.
    [InlineData(StepKind.Undo, "suction-pipe", false, false)]
    [InlineData(StepKind.Make, "union", false, true)]
    [InlineData(StepKind.Make, "suction-pipe", false, true)]
    public void Ends_are_closed_on_the_way_out_and_opened_on_the_way_back(StepKind kind, string joint, bool areClosed, bool areOpened)
    {
        Assert.Equal(areClosed, CautionOf(kind, joint).Contains(Cautions.OfOpenEnds, StringComparison.Ordinal));
        Assert.Equal(areOpened, CautionOf(kind, joint).Contains(Cautions.OfConnecting, StringComparison.Ordinal));
    }

    [Fact]
    public void As_a_rule_is_one_figure_in_the_plan_and_in_the_price() => Assert.Equal(Plan.MinutesP50, Core.Pricing.LabourMinutes.Of(Net, Plan, 0.9).P50, 0.01);

    private static string CautionOf(StepKind kind, string target) => Plan.Out.Concat(Plan.Back).First(step => step.Kind == kind && step.Target == target).Caution ?? "";

    private static Map Read(params IEnumerable<string> lines)
    {
        var strip = RecordedStrip.Of("one", lines.Aggregate(new Recorder(), (bay, line) => bay.Say(line)).Job.Entries);
        var learned = new Recordings([strip]).Learn("m", "M", []).Or(sentence => throw new InvalidOperationException(sentence));
        var reading = MapReader.Read(learned.Yaml, "learned.map.yaml");
        Assert.True(reading.Map is not null, string.Join('\n', reading.Faults.Select(reading.Describe)));
        return reading.Map;
    }
}
