using System.Diagnostics;
using System.Text.Json;
using Lastoff.Core.Fluids;

namespace Lastoff.Tests.Fluids;

/// <summary>
/// Public libraries from the system's packages, run live beside our own numbers: python3-iapws for water, python3-scipy for statistics, GNU units for
/// conversions.
/// </summary>
public class AgainstLiveLibrariesTests
{
    // The saturation line is the same published equation in both, so only rounding may differ.
    [Fact]
    public void Water_boils_where_iapws_says()
    {
        double[] kelvins = [273.16, 280, 293.15, 313.15, 333.15, 353.15, 373.15, 393.15, 420, 500, 640];
        var megapascals = Python($"from iapws.iapws97 import _PSat_T\nprint([_PSat_T(t) for t in {List(kelvins)}])");
        foreach (var (kelvin, megapascal) in kelvins.Zip(megapascals))
        {
            var pressure = WaterVapour.SaturationPressure(Temperature.FromKelvins(kelvin));
            Assert.Equal(megapascal * 1e6, pressure.Pascals, megapascal * 1e6 * 1e-10);

            // The way back.
            Assert.Equal(kelvin, WaterVapour.BoilingPoint(pressure).Kelvins, 1e-6);
        }
    }

    // Our figures are IAPWS-95 rounded to 0.01 kg/m3; the library computes IAPWS-IF97, which differs from it by up to 0.015 here.
    [Fact]
    public void Plain_water_weighs_what_iapws_says()
    {
        double[] celsius = [5, 20, 50, 80, 95];
        var densities = Python($"from iapws import IAPWS97\nprint([IAPWS97(T=t + 273.15, P=0.101325).rho for t in {List(celsius)}])");
        var water = Coolant.FromVolumePercent(Glycol.Ethylene, 0).Value!;
        Assert.All(celsius.Zip(densities), pair => Assert.Equal(pair.Second, water.DensityAt(Temperature.FromCelsius(pair.First))!.Value, 0.02));
    }

    // scipy's inverse is good to about 1e-9 of the value; the exact tangent below shows that ours is nearer.
    [Fact]
    public void Student_quantiles_are_scipys()
    {
        double[] probabilities = [0.6, 0.9, 0.95, 0.975, 0.995, 0.9995, 0.025];
        int[] degrees = [1, 2, 3, 4, 5, 9, 10, 29, 59, 200, 999];
        var theirs = Python($"from scipy.stats import t\nprint([float(t.ppf(p, n)) for p in {List(probabilities)} for n in {List([.. degrees.Select(n => (double)n)])}])");
        var ours = probabilities.SelectMany(p => degrees.Select(n => StudentT.Quantile(p, n)));
        Assert.All(ours.Zip(theirs), pair => Assert.Equal(pair.Second, pair.First, 1e-8 * Math.Abs(pair.Second)));
    }

    // With one degree of freedom the quantile is a tangent, with two it has a square root: exact forms.
    [Theory]
    [InlineData(0.6)]
    [InlineData(0.975)]
    [InlineData(0.9995)]
    public void Student_quantiles_are_exact_where_that_can_be_said(double probability)
    {
        var tangent = Math.Tan(Math.PI * (probability - 0.5));
        Assert.Equal(tangent, StudentT.Quantile(probability, 1), 1e-11 * tangent);
        var root = ((2 * probability) - 1) * Math.Sqrt(2 / (4 * probability * (1 - probability)));
        Assert.Equal(root, StudentT.Quantile(probability, 2), 1e-11 * root);
    }

    [Fact]
    public void Normal_tails_are_scipys()
    {
        double[] places = [-30, -8, -4.1, -3.9, -2, -0.5, 0, 0.5, 2, 3.9, 4.1, 8, 30, 100];
        var theirs = Python($"from scipy.special import log_ndtr\nprint([float(log_ndtr(-x)) for x in {List(places)}])");
        Assert.All(places.Zip(theirs), pair => Assert.Equal(pair.Second, Gauss.LogAbove(pair.First), (1e-10 * Math.Abs(pair.Second)) + 1e-15));
    }

    // The same integral over level and scatter by brute force, on a fixed grid with scipy's normal distribution. 0.04 divisions: the width of its cells.
    [Fact]
    public void A_line_through_rounded_readings_is_what_scipy_sums_up()
    {
        double[] y = [0, 0, 1, 0, 1, 1, 1, 2, 1];
        double[] x = [.. y.Select((_, i) => (double)i)];
        var theirs = Python($$"""
            import numpy as np
            from scipy.stats import norm
            y = np.array({{List(y)}})
            x = np.linspace(0, 1, len(y)) - 0.5
            slopes = np.linspace(-8, 10, 226)
            levels = np.linspace(-4, 6, 161)
            off = y - slopes[:, None, None] * x - levels[None, :, None]
            finest = 2 * np.sqrt(0.03)
            places = np.linspace(finest, 2 + np.log(10), 40)
            step = places[1] - places[0]
            sums = 0
            for place in places:
                scatter = place ** 2 / 4 if place < 2 else np.exp(place - 2)
                inside = norm.cdf((off + 0.5) / scatter) - norm.cdf((off - 0.5) / scatter)
                sums = sums + min(scatter, 1) ** 0.25 * (finest + step / 2 if place == places[0] else step) * inside.prod(2).sum(1)
            below = (sums.cumsum() - sums / 2) / sums.sum()
            print([float(np.interp(p, below, slopes)) for p in [0.005, 0.025, 0.5, 0.975, 0.995]])
            """);
        var line = new RoundedLine(x, y, [.. y.Select(_ => 1.0)]);
        var (wide, narrow) = (line.Interval(0.99), line.Interval(0.95));
        double[] ours = [wide.Low, narrow.Low, line.Slope, narrow.High, wide.High];
        Assert.All(theirs.Zip(ours), pair => Assert.Equal(pair.First / (y.Length - 1), pair.Second, 0.04 / (y.Length - 1)));
    }

    [Fact]
    public void Norris_line_is_scipys()
    {
        var (x, y) = FluidData.Norris();
        var theirs = Python($"from scipy.stats import linregress\nr = linregress({List(x)}, {List(y)})\nprint([float(r.slope), float(r.intercept), float(r.stderr), float(r.intercept_stderr)])");
        var fit = LineFit.Of(x, y);
        double[] ours = [fit.Slope, fit.Intercept, fit.SlopeDeviation, fit.InterceptDeviation(x)];
        Assert.All(ours.Zip(theirs), pair => Assert.Equal(pair.Second, pair.First, 1e-9 * Math.Abs(pair.Second)));
    }

    // Tolerance: GNU units prints the 12 digits asked for.
    [Theory]
    [InlineData("psi")]
    [InlineData("inHg")]
    [InlineData("mmHg")]
    [InlineData("bar")]
    [InlineData("hPa")]
    [InlineData("atm")]
    public void Pressure_units_are_those_of_GNU_units(string unit)
    {
        Assert.True(Pressure.TryParse($"7{unit}", out var ours));
        Assert.Equal(Units($"7 {unit}", "Pa"), ours.Pascals, 1e-9 * ours.Pascals);
    }

    [Fact]
    public void Leak_units_are_those_of_GNU_units()
    {
        Assert.Equal(Units("1 atm cm^3/min / (R 273.15 K)", "mol/s"), LeakRate.FromSccm(1).MolesPerSecond, 1e-15);
        Assert.True(LeakRate.TryParse("3 mbar·L/s", Temperature.FromCelsius(20), out var leak));
        Assert.Equal(Units("3 mbar l/s / (R 293.15 K)", "mol/s"), leak.MolesPerSecond, 1e-12);
    }

    private static string List(double[] values) => JsonSerializer.Serialize(values);

    private static double[] Python(string script) => JsonSerializer.Deserialize<double[]>(Run("/usr/bin/python3", "-c", script))!;

    private static double Units(string from, string to) =>
        double.Parse(Run("units", "--terse", "--output-format", "%.12g", from, to), System.Globalization.CultureInfo.InvariantCulture);

    private static string Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var errors = process.StandardError.ReadToEndAsync();
        var answer = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, errors.Result);
        return answer;
    }
}
