using Lastoff.Core.Maps;

namespace Lastoff.Tests.Maps;

public class VolumeTests
{
    // Exact definitions, from memory: the US gallon is 231 cubic inches (1 in = 25.4 mm, international yard and pound agreement, 1959), a quart
    // its quarter, a pint its eighth; the imperial gallon is 4.54609 L (Units of Measurement Regulations 1995, United Kingdom), a pint its eighth.
    // Tolerance: rounding of a double.
    [Theory]
    [InlineData("2.4 L", 2.4)]
    [InlineData("600 mL", 0.6)]
    [InlineData("1 US gal", 231 * 0.254 * 0.254 * 0.254)]
    [InlineData("1US qt", 231 * 0.254 * 0.254 * 0.254 / 4)]
    [InlineData("1 US pt", 231 * 0.254 * 0.254 * 0.254 / 8)]
    [InlineData("2 imp gal", 2 * 4.54609)]
    [InlineData("1 imp pt", 4.54609 / 8)]
    public void Amounts_convert_by_their_definitions(string text, double litres)
    {
        Assert.True(Volume.TryParseLitres(text, out var read));
        Assert.Equal(litres, read, 1e-12 * litres);
    }

    [Theory]
    [InlineData("2.4")]
    [InlineData("1 gal")]
    [InlineData("L")]
    [InlineData("1e400 L")]
    [InlineData("")]
    public void What_is_not_an_amount_is_refused(string text) => Assert.False(Volume.TryParseLitres(text, out _));
}
