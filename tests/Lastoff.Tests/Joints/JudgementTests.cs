using Lastoff.Core.Joints;

namespace Lastoff.Tests.Joints;

/// <summary>The maker's figure held against the limits: it always stands, and a bad disagreement is said.</summary>
public class JudgementTests
{
    // M8 8.8 at friction 0.10 to 0.14 yields in the published range of about 22 to 28 N·m; the boss is a weak aluminium casting.
    [Theory]
    [InlineData(20, 20, 8_000, null)]
    [InlineData(50, 40, 8_000, FindingKind.WouldYield)]
    [InlineData(27, 40, 8_000, FindingKind.MightYield)]
    [InlineData(20, 8, 8_000, FindingKind.WouldStrip)]
    [InlineData(10, 16, 12_000, FindingKind.TooLowToHold)]
    [InlineData(14, 16, 10_000, FindingKind.MightNotHold)]
    public void A_bad_disagreement_is_named_and_the_makers_figure_stands(double maker_Nm, double engaged_mm, double clamp_N, FindingKind? expected)
    {
        var bolt = Given.Bolt("M8", "8.8", 0.10, 0.14);
        var judgement = Judgement.Of(Torque.FromNewtonMetres(maker_Nm), bolt, Given.Stripping(bolt.Thread, engaged_mm, 800, 130), clamp_N);
        Assert.Equal(maker_Nm, judgement.Maker.NewtonMetres);
        Assert.Equal(expected is null, judgement.Agrees);
        Assert.Equal(expected is { } kind ? [kind] : [], judgement.Findings.Select(finding => finding.Kind));
    }

    [Fact]
    public void Inch_pounds_taken_for_newton_metres_are_noticed()
    {
        var bolt = Given.Bolt("M8", "8.8", 0.10, 0.14);
        var slip = Judgement.Of(Torque.FromInchPounds(22), bolt, null, null);
        Assert.Contains(slip.Findings, finding => finding.Kind == FindingKind.FarBelow && finding.Sentence.Contains("unit", StringComparison.Ordinal));
        var other = Judgement.Of(Torque.FromNewtonMetres(195), bolt, null, null);
        Assert.Contains(other.Findings, finding => finding.Kind == FindingKind.WouldYield);
    }

    [Fact]
    public void What_was_not_stated_is_not_judged_and_said()
    {
        var judgement = Judgement.Of(Torque.FromNewtonMetres(20), Given.Bolt("M8", "8.8", 0.10, 0.14), null, null);
        Assert.True(judgement.Agrees);
        Assert.Equal([FindingKind.StripNotJudged, FindingKind.HoldNotJudged], judgement.Findings.Select(finding => finding.Kind));
        Assert.Null(judgement.StripLimit);
        Assert.Null(judgement.HoldLimit);
    }

    // One machine maker's standard multiplies by 1.1 for adhesive, another takes it for a lubricant (both read): the figure stays as it is.
    [Fact]
    public void Thread_locking_never_changes_a_figure_by_itself()
    {
        var locked = new StatedCondition(ThreadCondition.ThreadLocked, "the map");
        Assert.Null(locked.NutFactor);
        Assert.Contains("the figure is left as it is", locked.Sentence, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(50, "2030-01-31", "2030-01-31", true)]
    [InlineData(50, "2030-01-31", "2030-02-01", false)]
    [InlineData(50, null, "2030-01-31", false)]
    [InlineData(150, "2030-01-31", "2030-01-31", false)]
    [InlineData(10, "2030-01-31", "2030-01-31", false)]
    public void A_wrench_is_used_within_its_range_and_its_calibration(double torque_Nm, string? due, string today, bool can)
    {
        var fit = Fit(torque_Nm, 0, due is null ? null : DateOnly.Parse(due, null), DateOnly.Parse(today, null));
        Assert.Equal(can, fit.CanDoIt);
    }

    // The crow's foot of 50 mm asks for 71.11 N·m; on a scale of 1 N·m that is 71, with 4 % either side, and the lever brings 450/400 of it to the fastener.
    [Fact]
    public void The_fastener_gets_what_mark_class_and_lever_make_of_it()
    {
        var fit = Fit(80, 50, new DateOnly(2030, 1, 31), new DateOnly(2030, 1, 1));
        Assert.Equal(71, fit.Mark.NewtonMetres, 1e-9);
        Assert.Equal(71 * 0.96 * 450 / 400, fit.AtFastener_Nm.Low, 1e-9);
        Assert.Equal(71 * 1.04 * 450 / 400, fit.AtFastener_Nm.High, 1e-9);
    }

    private static WrenchFit Fit(double torque_Nm, double extension_mm, DateOnly? due, DateOnly today) =>
        new Wrench("the bay's wrench", WrenchClass.Named("II-A").Or(Given.Fail<WrenchClass>), Torque.FromNewtonMetres(20), Torque.FromNewtonMetres(100), 1, 400, due)
            .For(Torque.FromNewtonMetres(torque_Nm), extension_mm, 0, today).Or(Given.Fail<WrenchFit>);
}
