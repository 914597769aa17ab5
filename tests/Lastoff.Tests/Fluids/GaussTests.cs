using Lastoff.Core.Fluids;

namespace Lastoff.Tests.Fluids;

public class GaussTests
{
    /// <summary>Quantiles of the standard normal distribution, as in any table of it (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1; further digits from memory).</summary>
    [Theory]
    [InlineData(0.5, 0)]
    [InlineData(0.9, 1.2815515655446004)]
    [InlineData(0.95, 1.6448536269514722)]
    [InlineData(0.975, 1.959963984540054)]
    [InlineData(0.1, -1.2815515655446004)]
    public void Quantile_is_the_tables(double share, double quantile) => Assert.Equal(quantile, Gauss.Quantile(share), 1e-12);

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void There_is_no_quantile_of_none_or_all(double share) => Assert.Throws<ArgumentOutOfRangeException>(() => Gauss.Quantile(share));
}
