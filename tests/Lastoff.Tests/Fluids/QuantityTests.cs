using Lastoff.Core.Fluids;

namespace Lastoff.Tests.Fluids;

public class QuantityTests
{
    [Theory]
    [InlineData("103kPa", 103_000)]
    [InlineData("1013.25 hPa", 101_325)]
    [InlineData("15 psi", 103_421.3595)]
    [InlineData("1e2Pa", 100)]
    public void Pressures_are_read_with_their_unit(string text, double pascals)
    {
        Assert.True(Pressure.TryParse(text, out var pressure));
        Assert.Equal(pascals, pressure.Pascals, 1e-3);
    }

    [Theory]
    [InlineData("25")]
    [InlineData("inHg")]
    [InlineData("-3kPa")]
    [InlineData("1,5 bar")]
    [InlineData("NaN kPa")]
    [InlineData("1e999 kPa")]
    [InlineData("5 e kPa")]
    [InlineData("")]
    public void What_is_no_pressure_is_not_read(string text) => Assert.False(Pressure.TryParse(text, out _));

    [Theory]
    [InlineData("20C", 293.15)]
    [InlineData("-12 °C", 261.15)]
    [InlineData("−12degC", 261.15)]
    [InlineData("68degF", 293.15)]
    [InlineData("300 K", 300)]
    public void Temperatures_are_read_with_their_unit(string text, double kelvins)
    {
        Assert.True(Temperature.TryParse(text, out var temperature));
        Assert.Equal(kelvins, temperature.Kelvins, 1e-9);
    }

    [Theory]
    [InlineData("20")]
    [InlineData("-300C")]
    [InlineData("warm")]
    public void What_is_no_temperature_is_not_read(string text) => Assert.False(Temperature.TryParse(text, out _));

    [Theory]
    [InlineData("1e-4Pa·m3/s")]
    [InlineData("1e-4 Pa m³/s")]
    [InlineData("1e-3 mbar·L/s")]
    [InlineData("1e-4 Pa.m^3/s")]
    public void Leaks_are_read_with_their_unit(string text)
    {
        Assert.True(LeakRate.TryParse(text, Temperature.FromCelsius(20), out var leak));
        Assert.Equal(1e-4, leak.ThroughputAt(Temperature.FromCelsius(20)), 1e-15);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(-1)]
    public void No_pressure_and_no_temperature_is_made_of_nonsense(double value)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Pressure.FromPascals(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => Temperature.FromKelvins(value));
    }
}
