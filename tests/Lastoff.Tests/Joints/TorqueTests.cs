using Lastoff.Core.Joints;

namespace Lastoff.Tests.Joints;

public class TorqueTests
{
    // Common practice, no source: small housing screws into aluminium, 110 to 120 in·lb, are treated as one band of 12.4 to 13.6 N·m,
    // and screws into plastic end at 89 in·lb, 10 N·m. Tolerance: half of the last digit quoted.
    [Theory]
    [InlineData("110 in·lb", 12.4)]
    [InlineData("120 in·lb", 13.6)]
    [InlineData("89 in·lb", 10.1)]
    public void Trade_figures_for_small_screws_agree_between_units(string text, double newtonMetres)
    {
        Assert.True(Torque.TryParse(text, out var torque));
        Assert.Equal(newtonMetres, torque.NewtonMetres, 0.05);
    }

    // Exact definitions: 1 in = 0.0254 m and 1 lb = 0.45359237 kg (international yard and pound agreement, 1959), g = 9.80665 m/s2 (3rd CGPM, 1901).
    // Tolerance: rounding of a double.
    [Theory]
    [InlineData("1 in·lb", 0.0254 * 0.45359237 * 9.80665)]
    [InlineData("1 ft·lb", 0.3048 * 0.45359237 * 9.80665)]
    [InlineData("1 kgf·m", 9.80665)]
    [InlineData("80Nm", 80)]
    [InlineData("80 N·m", 80)]
    [InlineData("12.5 ft-lb", 12.5 * 0.3048 * 0.45359237 * 9.80665)]
    public void Units_convert_by_their_definitions(string text, double newtonMetres)
    {
        Assert.True(Torque.TryParse(text, out var torque));
        Assert.Equal(newtonMetres, torque.NewtonMetres, 1e-12 * newtonMetres);
    }

    [Theory]
    [InlineData("80")]
    [InlineData("-3 N·m")]
    [InlineData("NaN N·m")]
    [InlineData("12 furlongs")]
    [InlineData("")]
    public void What_is_not_a_torque_is_refused(string text) => Assert.False(Torque.TryParse(text, out _));

    [Fact]
    public void Going_to_another_unit_and_back_changes_nothing()
    {
        var torque = Torque.FromNewtonMetres(37.3);
        Assert.Equal(37.3, Torque.FromInchPounds(torque.InchPounds).NewtonMetres, 1e-12);
        Assert.Equal(37.3, Torque.FromFootPounds(torque.FootPounds).NewtonMetres, 1e-12);
        Assert.Equal(37.3, Torque.FromKilogramForceMetres(torque.KilogramForceMetres).NewtonMetres, 1e-12);
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_torque_outside_the_range_throws(double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Torque.FromNewtonMetres(value));
}
