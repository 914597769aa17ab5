using System.Diagnostics;
using System.Globalization;
using Lastoff.Core.Joints;

namespace Lastoff.Tests.Joints;

/// <summary>GNU units, a general-purpose converter from the system's packages, run live beside our own conversions.</summary>
public class MeasuresAgainstUnitsTests
{
    private sealed record Row(string Text, string Measure, string Units, string Unit);

    // Tolerance: GNU units prints the 12 digits asked for.
    [Fact]
    public void Conversions_agree_with_GNU_units() => Assert.Multiple([.. Checks.Read<Row>("units.json").Select(row => (Action)(() =>
    {
        var measure = row.Measure switch
        {
            "torque" => Measure.Torque_Nm,
            "force" => Measure.Force_N,
            "length" => Measure.Length_mm,
            "stress" => Measure.Stress_MPa,
            _ => throw new InvalidDataException(row.Measure),
        };
        Assert.True(measure.TryRead(row.Text, out var actual), row.Text);
        var expected = Convert(row.Units, row.Unit);
        Assert.Equal(expected, actual, 1e-9 * expected);
    }))]);

    [Fact]
    public void Torques_shown_in_other_units_agree_with_GNU_units() => Assert.Multiple(
        () => Assert.Equal(Convert("37 N m", "in lbf"), Torque.FromNewtonMetres(37).InchPounds, 1e-8),
        () => Assert.Equal(Convert("37 N m", "ft lbf"), Torque.FromNewtonMetres(37).FootPounds, 1e-8),
        () => Assert.Equal(Convert("37 N m", "kgf m"), Torque.FromNewtonMetres(37).KilogramForceMetres, 1e-8));

    private static double Convert(string from, string to)
    {
        using var units = Process.Start(new ProcessStartInfo("units", ["--terse", "--output-format", "%.12g", from, to]) { RedirectStandardOutput = true })!;
        var answer = units.StandardOutput.ReadToEnd();
        units.WaitForExit();
        return double.Parse(answer, CultureInfo.InvariantCulture);
    }
}
