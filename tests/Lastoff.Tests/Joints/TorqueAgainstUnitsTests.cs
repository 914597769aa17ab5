using System.Diagnostics;
using System.Globalization;
using Lastoff.Core.Joints;

namespace Lastoff.Tests.Joints;

/// <summary>GNU units, a general-purpose converter from the system's packages, run live beside our own conversions.</summary>
public class TorqueAgainstUnitsTests
{
    // Tolerance: GNU units prints the 10 digits asked for.
    [Theory]
    [InlineData("in lbf")]
    [InlineData("ft lbf")]
    [InlineData("kgf m")]
    public void Conversions_agree_with_GNU_units(string unit)
    {
        var expected = Convert($"120 {unit}");
        var actual = unit switch
        {
            "in lbf" => Torque.FromInchPounds(120),
            "ft lbf" => Torque.FromFootPounds(120),
            _ => Torque.FromKilogramForceMetres(120),
        };
        Assert.Equal(expected, actual.NewtonMetres, 1e-9 * expected);
    }

    private static double Convert(string from)
    {
        using var units = Process.Start(new ProcessStartInfo("units", ["--terse", "--output-format", "%.12g", from, "N m"]) { RedirectStandardOutput = true })!;
        var answer = units.StandardOutput.ReadToEnd();
        units.WaitForExit();
        return double.Parse(answer, CultureInfo.InvariantCulture);
    }
}
