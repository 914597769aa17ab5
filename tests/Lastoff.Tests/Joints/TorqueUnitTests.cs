using Lastoff.Core.Joints;

namespace Lastoff.Tests.Joints;

public class TorqueUnitTests
{
    // 1 ft·lb = 1.3558179483 N·m, 1 in·lb = 0.112984829 N·m, 1 kgf·m = 9.80665 N·m: exact definitions, and what GNU units gives.
    [Theory]
    [InlineData(TorqueUnit.NewtonMetre, 40, "40 N·m")]
    [InlineData(TorqueUnit.NewtonMetre, 122.5, "122.5 N·m")]
    [InlineData(TorqueUnit.FootPound, 40, "29.5 ft·lb")]
    [InlineData(TorqueUnit.FootPound, 150, "111 ft·lb")]
    [InlineData(TorqueUnit.InchPound, 9, "79.7 in·lb")]
    [InlineData(TorqueUnit.KilogramForceMetre, 40, "4.08 kgf·m")]
    public void A_torque_is_written_as_the_wrench_is_marked(TorqueUnit unit, double newtonMetres, string text) =>
        Assert.Equal(text, Torque.FromNewtonMetres(newtonMetres).Text(unit));

    [Fact]
    public void Signs_and_values_go_both_ways()
    {
        foreach (var unit in TorqueUnits.All)
        {
            Assert.Equal(unit, TorqueUnits.Signed(unit.Sign()));
            Assert.Equal(12.5, unit.Of(12.5).In(unit), 1e-12);
            Assert.True(Torque.TryParse($"12.5 {unit.Sign()}", out var read));
            Assert.Equal(unit.Of(12.5).NewtonMetres, read.NewtonMetres, 1e-12);
        }

        Assert.Null(TorqueUnits.Signed("stone"));
    }

    [Fact]
    public void A_wrench_speaks_the_unit_asked_for()
    {
        var fit = new Wrench("Bay wrench", WrenchClass.All[5], TorqueUnit.FootPound.Of(20), TorqueUnit.FootPound.Of(100), 0, 400, null)
            .For(TorqueUnit.FootPound.Of(150), 0, 0, new DateOnly(2026, 1, 1), TorqueUnit.FootPound).Or(Given.Fail<WrenchFit>);
        Assert.Equal("It would be set to 150 ft·lb, and Bay wrench goes from 20 ft·lb to 100 ft·lb; take another wrench.", fit.Reasons[0]);
    }
}
