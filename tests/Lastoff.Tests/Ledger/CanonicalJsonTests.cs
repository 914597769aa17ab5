using System.Text.Json;
using Lastoff.Core.Ledger;

namespace Lastoff.Tests.Ledger;

public class CanonicalJsonTests
{
    // RFC 8785, appendix B, "Number Serialization Samples": IEEE 754 bits and the text they must be written as.
    [Theory]
    [InlineData(0x0000000000000000, "0")]
    [InlineData(0x8000000000000000, "0")]
    [InlineData(0x0000000000000001, "5e-324")]
    [InlineData(0x8000000000000001, "-5e-324")]
    [InlineData(0x7fefffffffffffff, "1.7976931348623157e+308")]
    [InlineData(0xffefffffffffffff, "-1.7976931348623157e+308")]
    [InlineData(0x4340000000000000, "9007199254740992")]
    [InlineData(0xc340000000000000, "-9007199254740992")]
    [InlineData(0x4430000000000000, "295147905179352830000")]
    [InlineData(0x44b52d02c7e14af5, "9.999999999999997e+22")]
    [InlineData(0x44b52d02c7e14af6, "1e+23")]
    [InlineData(0x44b52d02c7e14af7, "1.0000000000000001e+23")]
    [InlineData(0x444b1ae4d6e2ef4e, "999999999999999700000")]
    [InlineData(0x444b1ae4d6e2ef4f, "999999999999999900000")]
    [InlineData(0x444b1ae4d6e2ef50, "1e+21")]
    [InlineData(0x3eb0c6f7a0b5ed8c, "9.999999999999997e-7")]
    [InlineData(0x3eb0c6f7a0b5ed8d, "0.000001")]
    [InlineData(0x41b3de4355555553, "333333333.3333332")]
    [InlineData(0x41b3de4355555554, "333333333.33333325")]
    [InlineData(0x41b3de4355555555, "333333333.3333333")]
    [InlineData(0x41b3de4355555556, "333333333.3333334")]
    [InlineData(0x41b3de4355555557, "333333333.33333343")]
    [InlineData(0xbecbf647612f3696, "-0.0000033333333333333333")]
    [InlineData(0x43143ff3c1cb0959, "1424953923781206.2")]
    public void Numbers_are_written_as_the_standard_says(ulong bits, string text) =>
        Assert.Equal(text, CanonicalJson.Number(BitConverter.UInt64BitsToDouble(bits)));

    // RFC 8785, section 3.2.3: members are sorted by their UTF-16 code units.
    [Fact]
    public void Members_are_sorted_as_the_standard_says() => Assert.Equal(
        "{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"\u0080\":\"Control\",\"\u00f6\":\"Latin Small Letter O With Diaeresis\","
        + "\"\u20ac\":\"Euro Sign\",\"\ud83d\ude00\":\"Emoji: Grinning Face\",\"\ufb33\":\"Hebrew Letter Dalet With Dagesh\"}",
        Canonical("""
            {
              "\u20ac": "Euro Sign",
              "\r": "Carriage Return",
              "\ufb33": "Hebrew Letter Dalet With Dagesh",
              "1": "One",
              "\ud83d\ude00": "Emoji: Grinning Face",
              "\u0080": "Control",
              "\u00f6": "Latin Small Letter O With Diaeresis"
            }
            """));

    [Theory]
    [InlineData("""[ 56.0, {"d": true, "10": null, "1": [ ] } ]""", """[56,{"1":[],"10":null,"d":true}]""")]
    [InlineData("""{"a":"\u000f\n\"\\\/"}""", """{"a":"\u000f\n\"\\/"}""")]
    public void White_space_and_escapes_have_one_form(string text, string canonical) => Assert.Equal(canonical, Canonical(text));

    [Theory]
    [InlineData("""{"a":1,"a":2}""")]
    [InlineData("1e999")]
    public void What_two_readers_could_read_differently_is_refused(string text) =>
        Assert.Throws<FormatException>(() => Canonical(text));

    private static string Canonical(string text)
    {
        using var document = JsonDocument.Parse(text);
        return CanonicalJson.Write(document.RootElement);
    }
}
