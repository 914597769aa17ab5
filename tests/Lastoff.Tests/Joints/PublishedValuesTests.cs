using Lastoff.Core.Joints;

namespace Lastoff.Tests.Joints;

/// <summary>Walks the files of published values; each row names its source, its tolerance and why that tolerance.</summary>
public class PublishedValuesTests
{
    private const double MillimetresPerInch = 25.4;
    private const double NewtonsPerPound = 0.45359237 * 9.80665;
    private const double MegapascalsPerPsi = NewtonsPerPound / (MillimetresPerInch * MillimetresPerInch);

    private sealed record ThreadRow(string Thread, string Quantity) : Check;
    private sealed record StrengthRow(string Thread, string Class, string Quantity) : Check;
    private sealed record TighteningRow(string Thread, string Class, double Mu, string Quantity) : Check;
    private sealed record NutFactorRow(string Thread, string Class, double K, string Quantity) : Check;
    private sealed record SettingRow(double Torque_Nm, double Lever_mm, double Extension_mm, double Angle_deg) : Check;
    private sealed record ClassRow(string Class, double Max_Nm) : Check;
    private sealed record OrderRow(int Bolts, int[] Order);
    private sealed record InteractionRow(int Pass, double[] Preload_share);

    [Fact]
    public void Thread_sizes_and_stress_areas() => Checks.Walk<ThreadRow>("threads.json", row =>
    {
        var thread = Given.Thread(row.Thread);
        return row.Quantity switch
        {
            "pitch diameter" => thread.PitchDiameter_mm,
            "minor diameter" => thread.MinorDiameter_mm,
            "root diameter" => thread.RootDiameter_mm,
            "stress area" => row.Unit == "in2" ? thread.StressArea_mm2 / (MillimetresPerInch * MillimetresPerInch) : thread.StressArea_mm2,
            _ => throw new InvalidDataException(row.Quantity),
        };
    });

    [Fact]
    public void Strengths_and_loads_of_classes_and_grades() => Checks.Walk<StrengthRow>("strengths.json", row =>
    {
        var thread = Given.Thread(row.Thread);
        var strength = Given.Strength(row.Class, thread);
        var value = row.Quantity switch
        {
            "proof load" => strength.ProofLoad_N(thread),
            "tensile load" => strength.TensileLoad_N(thread),
            "proof stress" => strength.Proof_MPa,
            "yield stress" => strength.Yield_MPa,
            "tensile stress" => strength.Tensile_MPa,
            _ => throw new InvalidDataException(row.Quantity),
        };
        return row.Unit == "psi" ? value / MegapascalsPerPsi : value;
    });

    [Fact]
    public void Preload_and_torque_at_90_percent_of_yield() => Checks.Walk<TighteningRow>("tightening.json", row =>
    {
        var bolt = Given.Bolt(row.Thread, row.Class, row.Mu, row.Mu);
        return row.Unit == "kN" ? bolt.PreloadMax_N.High / 1000 : bolt.TorqueMax.NewtonMetres;
    });

    [Fact]
    public void Clamp_and_torque_by_nut_factor() => Checks.Walk<NutFactorRow>("nut-factor.json", row =>
    {
        var thread = Given.Thread(row.Thread);
        var clamp = 0.75 * Given.Strength(row.Class, thread).ProofLoad_N(thread);
        return row.Unit == "lbf" ? clamp / NewtonsPerPound : NutFactor.Of(row.K).Or(Given.Fail<NutFactor>).TorqueFor(thread, clamp).FootPounds;
    });

    [Fact]
    public void Limits_of_size_and_shear_areas() => Checks.Walk<ThreadRow>("stripping.json", row =>
    {
        var thread = Given.Thread(row.Thread);
        var limits = ThreadLimits.Of(thread);
        var equal = Given.Stripping(thread, 10, 800, 800);
        var value = row.Quantity switch
        {
            "bolt major least" => limits.BoltMajorLeast_mm,
            "bolt pitch least" => limits.BoltPitchLeast_mm,
            "hole pitch most" => limits.HolePitchMost_mm,
            "hole minor most" => limits.HoleMinorMost_mm,
            "bolt shear area per length" => equal.BoltAreaPerLength_mm,
            "boss shear area per length" => equal.BossAreaPerLength_mm,
            "needed length" => equal.Needed_mm,
            _ => throw new InvalidDataException(row.Quantity),
        };
        return row.Unit == "in" ? value / MillimetresPerInch : value;
    });

    [Fact]
    public void Settings_with_crows_foot_and_extension() => Checks.Walk<SettingRow>("wrench-settings.json", row =>
        WrenchSetting.For(Torque.FromNewtonMetres(row.Torque_Nm), row.Lever_mm, row.Extension_mm, row.Angle_deg).Or(Given.Fail<Torque>).NewtonMetres);

    [Fact]
    public void Deviations_of_wrench_classes() => Checks.Walk<ClassRow>("wrench-classes.json", row =>
        100 * WrenchClass.Named(row.Class).Or(Given.Fail<WrenchClass>).Deviation(row.Max_Nm));

    [Fact]
    public void Common_flange_orders() => Assert.Multiple([.. Checks.Read<OrderRow>("orders.json").Select(row => (Action)(() =>
        Assert.Equal(row.Order, TighteningOrder.Of(Given.Circle(row.Bolts)).Select(hole => hole + 1))))]);

    [Fact]
    public void Interaction_of_four_bolts_in_a_row()
    {
        var row = HolePattern.From([.. Enumerable.Range(0, 4).Select(i => new Hole($"{i + 1}", 30 * i, 0))]).Or(Given.Fail<HolePattern>);
        var after = ElasticInteraction.Of(row, [0.2, 0.05]).Or(Given.Fail<ElasticInteraction>).After([0, 1, 2, 3], [1, 1, 1]);
        Assert.Multiple([.. Checks.Read<InteractionRow>("interaction.json").SelectMany(check => check.Preload_share.Select((value, bolt) => (Action)(() =>
            Assert.Equal(value, after[check.Pass - 1][bolt], 1e-6))))]);
    }

    // Read in a fastener-coating newsletter; dry and lubricated also in two fastener makers' tables. The scatter in two fastening references (±25 to ±30 %).
    [Fact]
    public void Published_nut_factors_and_scatter()
    {
        Assert.Equal(0.20, new StatedCondition(ThreadCondition.Dry, "map").NutFactor);
        Assert.Equal(0.15, new StatedCondition(ThreadCondition.Oiled, "map").NutFactor);
        Assert.Equal(0.17, new StatedCondition(ThreadCondition.ZincPlated, "map").NutFactor);
        Assert.Equal(0.30, NutFactor.Scatter);
    }

    // ASME PCC-1 practice, read in three public guides. Engagement rule: an engine maker's torque notes, read.
    [Fact]
    public void Published_passes_and_engagement()
    {
        Assert.Equal([0.3, 0.6, 1], TighteningPasses.UsualShares);
        Assert.Equal(2, BossMaterial.Named("aluminium").Or(Given.Fail<BossMaterial>).UsualDiameters);
        Assert.Equal(1.25, BossMaterial.Named("iron").Or(Given.Fail<BossMaterial>).UsualDiameters);
    }

    [Fact]
    public void A_share_of_the_range_is_only_a_default_for_the_lowest_torque() => Assert.Equal(20, Wrench.UsualLowest(Torque.FromNewtonMetres(100)).NewtonMetres, 1e-12);
}
