using CsCheck;
using Lastoff.Core.Fluids;

namespace Lastoff.Tests.Fluids;

public class DilutionTests
{
    [Fact]
    public void Each_change_keeps_what_is_retained()
    {
        var dilution = Dilution.Of(5, 0.4, 20_000, 500).Value!;
        Assert.Equal([1600, 128], dilution.RemainingPpm.Select(ppm => Math.Round(ppm, 6)));
    }

    // The closed form: the least n with start · share^n at or below the target.
    [Fact]
    public void As_many_changes_as_the_logarithm_says() =>
        Gen.Select(Gen.Double[0.01, 0.6], Gen.Double[600, 50_000]).Sample((share, start) =>
            Assert.Equal((int)Math.Ceiling(Math.Log(500 / start) / Math.Log(share)), Dilution.Of(5, 5 * share, start, 500).Value!.Changes));

    [Fact]
    public void Clean_enough_needs_no_change() => Assert.Equal(0, Dilution.Of(5, 0.4, 400, 500).Value!.Changes);

    [Theory]
    [InlineData(5, 5, 1000, 500, "less than")]
    [InlineData(5, 4.999, 1000, 500, "More than 50")]
    [InlineData(5, 0.4, 1000, 0, "never reaches nothing")]
    public void Changes_that_cannot_help_are_refused(double holds, double retained, double start, double target, string says) =>
        Assert.Contains(says, Dilution.Of(holds, retained, start, target).Sentence);

    // The published figures themselves: act from 500 ppm, allowed up to 1000 ppm, 2000 ppm halves bearing life; glycol none, 0.5 % very bad.
    [Theory]
    [InlineData(499, "low")]
    [InlineData(500, "between")]
    [InlineData(1000, "between")]
    [InlineData(1001, "raised")]
    [InlineData(2000, "high")]
    public void Water_lies_in_a_band(double ppm, string band) => Assert.Equal(band, OilBand.OfWater(ppm).Name);

    [Theory]
    [InlineData(0, "none found")]
    [InlineData(1, "found")]
    [InlineData(5000, "high")]
    public void Glycol_lies_in_a_band(double ppm, string band) => Assert.Equal(band, OilBand.OfGlycol(ppm).Name);
}
