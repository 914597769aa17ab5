using Lastoff.Core.Fluids;

namespace Lastoff.Tests.Fluids;

/// <summary>The structure of SAE J2012 / ISO 15031-6, from memory, beside what public pages on it agree on (looked at 2026-11-26): letters, who defines, groups of P0.</summary>
public class TroubleCodeTests
{
    [Theory]
    [InlineData("P0128", "engine and gearbox", "the standard", "fuel and air")]
    [InlineData(" p0300 ", "engine and gearbox", "the standard", "ignition and misfires")]
    [InlineData("P0480", "engine and gearbox", "the standard", "what cleans the exhaust, and other controls beside it")]
    [InlineData("P0A0F", "engine and gearbox", "the standard", "electric or hybrid drive")]
    [InlineData("P1234", "engine and gearbox", "the maker", null)]
    [InlineData("P3100", "engine and gearbox", "the maker", null)]
    [InlineData("P3400", "engine and gearbox", "the standard", null)]
    [InlineData("B1001", "the body", "the maker", null)]
    [InlineData("C0035", "chassis: brakes, steering and suspension", "the standard", null)]
    [InlineData("U0100", "the network between control units", "the standard", null)]
    public void A_code_says_what_it_belongs_to(string text, string system, string definer, string? group)
    {
        var code = TroubleCode.Read(text).Value!;
        Assert.Equal((text.Trim().ToUpperInvariant(), system, definer, group), (code.Code, code.System, code.Definer, code.Group));
    }

    [Fact]
    public void A_code_of_cooling_says_what_it_means_and_no_other_does()
    {
        Assert.EndsWith("it is defined by the standard and says: coolant stays below the thermostat's regulating temperature.", TroubleCode.Read("P0128").Value!.Sentence);
        Assert.Equal("P0300 belongs to engine and gearbox, ignition and misfires; it is defined by the standard, where it says what has failed.", TroubleCode.Read("P0300").Value!.Sentence);
    }

    [Theory]
    [InlineData("")]
    [InlineData("P012")]
    [InlineData("P01289")]
    [InlineData("X0128")]
    [InlineData("P4128")]
    [InlineData("P0G28")]
    [InlineData("PO128")]
    public void What_is_no_code_gets_its_sentence(string text) =>
        Assert.Equal(
            $"“{text}” is not a trouble code; write a letter (P, B, C or U), a digit from 0 to 3 and three more places (0 to 9, A to F), such as P0128.",
            TroubleCode.Read(text).Sentence);

    [Fact]
    public void Several_codes_are_each_told_once() =>
        Assert.Equal(["P0128", "C0035"], TroubleCode.ReadAll("p0128, C0035;\nP0128").Value!.Select(code => code.Code));
}
