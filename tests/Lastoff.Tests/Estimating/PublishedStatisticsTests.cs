using System.Diagnostics;
using System.Text.Json;
using Lastoff.Core.Estimating;

namespace Lastoff.Tests.Estimating;

/// <summary>Against certified and published figures, and against scipy run live.</summary>
public class PublishedStatisticsTests
{
    private static readonly double[] Effects = [28, 8, -3, 7, -1, 1, 18, 12];
    private static readonly double[] Errors = [15, 10, 16, 11, 9, 11, 10, 18];

    // NIST StRD, univariate: NumAcc1 to NumAcc4 are made by rule (Simon and Lesage 1989), and their mean and standard deviation are exact. Seen in copies of
    // NIST's files. Tolerance: what is left of double precision beside the size of the values.
    [Theory]
    [InlineData("NumAcc1", 10000002, 1, 1e-12)]
    [InlineData("NumAcc2", 1.2, 0.1, 1e-12)]
    [InlineData("NumAcc3", 1000000.2, 0.1, 1e-8)]
    [InlineData("NumAcc4", 10000000.2, 0.1, 1e-7)]
    public void Mean_and_deviation_are_those_certified_by_NIST(string set, double mean, double deviation, double tolerance)
    {
        var values = set == "NumAcc1"
            ? [10000001, 10000003, 10000002]
            : Enumerable.Range(0, 1001).Select(i => i == 0 ? mean : i % 2 == 1 ? Math.Round(mean - 0.1, 1) : Math.Round(mean + 0.1, 1)).ToList();
        var ours = GroupStatistics.Of(values);
        Assert.Equal(mean, ours.Mean, 1e-14 * mean);
        Assert.Equal(deviation, ours.Deviation, tolerance);
    }

    // NIST StRD, one-way analysis of variance, SiRstv (resistivity of silicon, five instruments, five readings each); data and certified values seen in copies of
    // NIST's file. Tolerance: the readings have seven digits and their scatter begins at the fourth.
    [Fact]
    public void Scatter_between_and_within_is_that_certified_by_NIST()
    {
        var ours = GroupScatter.Of(
        [
            [196.3052, 196.1240, 196.1890, 196.2569, 196.3403],
            [196.3042, 196.3825, 196.1669, 196.3257, 196.0422],
            [196.1303, 196.2005, 196.2889, 196.0343, 196.1811],
            [196.2795, 196.1748, 196.1494, 196.1485, 195.9885],
            [196.2119, 196.1051, 196.1850, 196.0052, 196.2090],
        ]);
        Assert.Equal(5.11462616e-2, ours.Between, 1e-12);
        Assert.Equal(2.16636560e-1, ours.Within, 1e-12);
        Assert.Equal(1.18046237440255, ours.F, 1e-10);
        Assert.Equal(0.190999039051129, ours.RSquared, 1e-11);
        Assert.Equal(0.104076068334656, Math.Sqrt(ours.WithinVariance), 1e-12);
    }

    // Eight schools (Rubin 1981; Gelman and others, Bayesian Data Analysis, chapter 5), nothing known beforehand. Posterior means and deviations as Stan's own
    // example printed them from 20,000 draws (2 October 2018). Tolerance: four of its standard errors, at most 0.07, for the means; 3 % for the deviations.
    [Fact]
    public void Eight_schools_are_pooled_as_published()
    {
        double[] means = [11.42, 7.96, 6.16, 7.71, 5.15, 6.22, 10.72, 8.48];
        double[] deviations = [8.41, 6.18, 7.72, 6.60, 6.43, 6.65, 6.85, 7.82];
        var ours = PooledMeans.Of(Effects, Errors, double.PositiveInfinity, double.PositiveInfinity);
        Assert.All(ours.Groups.Zip(means), pair => Assert.Equal(pair.Second, pair.First.Mean, 0.28));
        Assert.All(ours.Groups.Zip(deviations), pair => Assert.Equal(pair.Second, pair.First.Deviation, 0.03 * pair.Second));
    }

    // The same integral by scipy's adaptive quadrature, both with nothing known and with what the times go by. Tolerance: the width of our steps.
    [Theory]
    [InlineData(double.PositiveInfinity, double.PositiveInfinity)]
    [InlineData(20, 5)]
    public void Pooling_is_scipys_integral(double centre, double scale)
    {
        static string P(double x) => double.IsInfinity(x) ? "inf" : JsonSerializer.Serialize(x);
        var theirs = Python($$"""
            import numpy as np
            from numpy import inf
            from scipy.integrate import quad
            y = np.array({{JsonSerializer.Serialize(Effects)}}); s = np.array({{JsonSerializer.Serialize(Errors)}})
            m0, t0 = {{P(centre)}}, {{P(scale)}}
            def at(t):
                v = s**2 + t**2
                prec = (1/v).sum() + m0**-2
                mu = (y/v).sum() / prec
                w = np.exp(-0.5*((y-mu)**2/v).sum() - 0.5*np.log(v/100).sum() - 0.5*np.log(prec) - 0.5*mu**2*m0**-2 - 0.5*t**2*t0**-2)
                k = t**2/v
                return w, k*y + (1-k)*mu
            total = quad(lambda t: at(t)[0], 0, inf, epsabs=0, epsrel=1e-9, limit=500)[0]
            print([quad(lambda t: at(t)[0]*at(t)[1][j], 0, inf, epsabs=0, epsrel=1e-9, limit=500)[0]/total for j in range(8)] + [quad(lambda t: at(t)[0]*t, 0, inf, epsabs=0, epsrel=1e-9, limit=500)[0]/total])
            """);
        var ours = PooledMeans.Of(Effects, Errors, centre, scale);
        Assert.All(ours.Groups.Select(group => group.Mean).Append(ours.Spread).Zip(theirs), pair => Assert.Equal(pair.Second, pair.First, 0.002 * Math.Abs(pair.Second)));
    }

    private static double[] Python(string script)
    {
        using var process = Process.Start(new ProcessStartInfo("/usr/bin/python3", ["-c", script]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var errors = process.StandardError.ReadToEndAsync();
        var answer = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, errors.Result);
        return JsonSerializer.Deserialize<double[]>(answer)!;
    }
}
