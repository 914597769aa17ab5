using CsCheck;
using Lastoff.Core.Identity;

namespace Lastoff.Tests.Identity;

public class VinTests
{
    /// <summary>
    /// 1G4AH59H45G118341 with its sum of 411 and check digit 4 is the example of 49 CFR 565.15, table V. 1M8GDM9AXKP042788 with 351 and X, and seventeen ones, are
    /// checks that go round wherever the digit is explained (from memory).
    /// </summary>
    [Theory]
    [InlineData("11111111111111111", 89, '1')]
    [InlineData("1M8GDM9AXKP042788", 351, 'X')]
    [InlineData("1G4AH59H45G118341", 411, '4')]
    public void Has_the_published_sum_and_check_digit(string text, int sum, char digit)
    {
        var vin = Vin.Read(text).Value!;
        Assert.Equal((sum, digit, true, true), (vin.WeightedSum, vin.CheckDigit, vin.HasItsCheckDigit, vin.IsValid));
    }

    [Fact]
    public void Another_check_digit_is_a_warning_where_it_is_required_and_none_elsewhere()
    {
        var wrong = Vin.Read("1M8GDM9A1KP042788").Value!;
        Assert.Equal(('X', false, true, false), (wrong.CheckDigit, wrong.HasItsCheckDigit, wrong.NeedsCheckDigit, wrong.IsValid));
        var elsewhere = Vin.Read("WM8GDM9AZKP042788").Value!;
        Assert.Equal((false, false, true, WorldRegion.Europe), (elsewhere.HasItsCheckDigit, elsewhere.NeedsCheckDigit, elsewhere.IsValid, elsewhere.Region));
        Assert.Empty(elsewhere.LikelyMeant);
    }

    [Fact]
    public void A_sign_that_worn_plates_make_alike_is_found_again()
    {
        Assert.Contains("1G4AH59H45G118341", Vin.Read("1G4AH59H4SG118341").Value!.LikelyMeant);
        Assert.All(Vin.Read("1M8GDM9A1KP042788").Value!.LikelyMeant, text => Assert.True(Vin.Read(text).Value!.IsValid));
    }

    [Theory]
    [InlineData("1M8GDM9AXKPO42788", "the letter O in place 12", "1M8GDM9AXKP042788")]
    [InlineData("IM8GDM9AXKP042788", "the letter I in place 1", "1M8GDM9AXKP042788")]
    [InlineData("1M8GDM9AXKPQ42788", "the letter Q in place 12", "1M8GDM9AXKP042788")]
    public void Letters_that_are_never_used_are_named_with_what_was_meant(string text, string says, string meant)
    {
        var sentence = Vin.Read(text).Sentence!;
        Assert.Contains(says, sentence);
        Assert.Contains(meant, sentence);
    }

    [Theory]
    [InlineData("", "has 0 signs")]
    [InlineData("1M8GDM9AXKP04278", "has 16 signs")]
    [InlineData("1M8GDM9AXKP042788 9", "has 18 signs")]
    [InlineData("1M8GDM9AXKP0427_8", "“_” in place 16")]
    [InlineData("1М8GDM9AXKP042788", "“М” in place 2")]
    [InlineData("1M8GDM9AXKP\u202E42788", "“?” in place 12")]
    public void What_is_no_number_is_said_in_one_sentence(string text, string says) => Assert.Contains(says, Vin.Read(text).Sentence);

    [Theory]
    [InlineData(" 1m8gdm9a-xkp-042788 ")]
    [InlineData("1M8 GDM9AX KP042788")]
    public void Small_letters_spaces_and_hyphens_do_not_matter(string text) => Assert.Equal("1M8GDM9AXKP042788", Vin.Read(text).Value!.Text);

    /// <summary>49 CFR 565.15, table VII: A is 1980, Y 2000, 1 2001, 9 2009, A again 2010; 0, U and Z are no code.</summary>
    [Theory]
    [InlineData('A', new[] { 1980, 2010 })]
    [InlineData('H', new[] { 1987, 2017 })]
    [InlineData('J', new[] { 1988, 2018 })]
    [InlineData('Y', new[] { 2000, 2030 })]
    [InlineData('1', new[] { 2001, 2031 })]
    [InlineData('9', new[] { 2009, 2039 })]
    [InlineData('0', new int[0])]
    [InlineData('U', new int[0])]
    [InlineData('Z', new int[0])]
    public void The_tenth_place_is_one_of_two_model_years(char code, int[] years) =>
        Assert.Equal(years, Vin.Read($"1M8GDM9AX{code}P042788").Value!.ModelYears);

    /// <summary>ISO 3780:2009, from memory.</summary>
    [Theory]
    [InlineData('A', WorldRegion.Africa)]
    [InlineData('J', WorldRegion.Asia)]
    [InlineData('R', WorldRegion.Asia)]
    [InlineData('S', WorldRegion.Europe)]
    [InlineData('Z', WorldRegion.Europe)]
    [InlineData('5', WorldRegion.NorthAmerica)]
    [InlineData('6', WorldRegion.Oceania)]
    [InlineData('9', WorldRegion.SouthAmerica)]
    [InlineData('0', null)]
    public void The_first_sign_says_where(char first, WorldRegion? region) => Assert.Equal(region, Vin.Read($"{first}M8GDM9AXKP042788").Value!.Region);

    [Fact]
    public void One_sign_put_right_or_wrong_is_always_noticed_where_its_value_differs() =>
        Gen.Select(Gen.Char["ABCDEFGHJKLMNPRSTUVWXYZ0123456789"].Array[17], Gen.Int[0, 16], Gen.Char["0123456789"]).Sample((signs, place, other) =>
        {
            signs[0] = '1';
            var sound = new string(signs);
            sound = $"{sound[..8]}{Vin.Read(sound).Value!.CheckDigit}{sound[9..]}";
            Assert.True(Vin.Read(sound).Value!.HasItsCheckDigit);
            if (place != 8 && char.IsAsciiDigit(sound[place]) && sound[place] != other)
            {
                Assert.False(Vin.Read($"{sound[..place]}{other}{sound[(place + 1)..]}").Value!.HasItsCheckDigit);
            }
        }, iter: 1000);
}
