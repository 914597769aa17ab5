using Lastoff.Core.Papers;

namespace Lastoff.Tests.Papers;

/// <summary>A space stays between a figure and its unit, and it is one that no line ends at (ISO 80000-1, 7.3.4, has a space between the two; from memory).</summary>
public class UnbrokenTests
{
    [Theory]
    [InlineData("Fill 1.2 L of oil", "Fill 1.2_L of oil")]
    [InlineData("1 200 L, 148 000 km", "1_200_L, 148_000_km")]
    [InlineData("Set 18 N·m for 20 N·m", "Set 18_N·m for 20_N·m")]
    [InlineData("20 % of 278.18 EUR", "20_% of 278.18_EUR")]
    [InlineData("1 h 16 min", "1_h 16_min")]
    [InlineData("hex 13 mm", "hex 13_mm")]
    [InlineData("-40 °C", "-40_°C")]
    // No unit: the first letters of other words, a count, a year.
    [InlineData("2 Lids, 3 hoses, 4 made", "2 Lids, 3 hoses, 4 made")]
    [InlineData("on 3 Feb 2026 at 09 30 15", "on 3 Feb 2026 at 09 30 15")]
    [InlineData("Bolt 1 of 6", "Bolt 1 of 6")]
    [InlineData("without", "without")]
    public void A_figure_keeps_its_unit(string text, string kept) => Assert.Equal(kept, Unbroken.Of(text).Replace('\u00A0', '_'));
}
