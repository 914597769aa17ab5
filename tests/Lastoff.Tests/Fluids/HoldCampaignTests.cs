using Lastoff.Bench;

namespace Lastoff.Tests.Fluids;

/// <summary>A short run of the campaign of simulated holds whose long one stands as a table in docs/methods/fluids.md.</summary>
public class HoldCampaignTests
{
    private const int Runs = 100;

    public static TheoryData<double> Scatters => [.. HoldCampaign.Scatters];

    [Theory]
    [MemberData(nameof(Scatters))]
    public void Holds_are_judged_as_surely_as_stated(double scatter)
    {
        var tight = HoldCampaign.Count(scatter, TrueLeak.None, Runs);
        AtMost(0.01, tight.Leaking);
        AtLeast(0.90, tight.Tight);
        AtLeast(0.94, tight.Covered);
        var leaking = HoldCampaign.Count(scatter, TrueLeak.Matters, Runs);
        AtMost(0.01, leaking.Tight);
        AtLeast(0.90, leaking.Leaking);
        AtLeast(0.94, leaking.Covered);
        AtLeast(0.94, HoldCampaign.Count(scatter, TrueLeak.Drawn, Runs).Covered);
    }

    // All scatters and leaks together, since a hundred of each alone could not tell 96 % from 99 %.
    [Fact]
    public void The_interval_is_not_wider_than_it_says()
    {
        var covered = HoldCampaign.Scatters.Sum(scatter => HoldCampaign.Count(scatter, TrueLeak.Drawn, 3 * Runs).Covered);
        var all = 3 * Runs * HoldCampaign.Scatters.Count;
        Assert.True(covered <= (0.96 * all) + (3 * Math.Sqrt(all * 0.96 * 0.04)), $"{covered} of {all} covered");
    }

    // Chance moves a count by up to three standard deviations; in the long run only the stated figures count.
    private static void AtMost(double share, int count) => Assert.True(count <= (share * Runs) + Chance(share), $"{count} of {Runs}, more than {share:P0}");

    private static void AtLeast(double share, int count) => Assert.True(count >= (share * Runs) - Chance(share), $"{count} of {Runs}, less than {share:P0}");

    private static double Chance(double share) => 3 * Math.Sqrt(Runs * share * (1 - share));
}
