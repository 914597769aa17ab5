namespace Lastoff.Core.Identity;

/// <summary>The part of the world a vehicle identification number was given out for.</summary>
public enum WorldRegion { Africa, Asia, Europe, NorthAmerica, Oceania, SouthAmerica }

/// <summary>A vehicle identification number: seventeen letters and digits (ISO 3779), of which I, O and Q are never used.</summary>
/// <remarks>
/// The check digit in the ninth place, its values and its weights are those of 49 CFR 565.15(c). It is required in North America only; elsewhere the
/// place is the maker's to use, so a check digit that differs is a warning there and never more.
/// </remarks>
public sealed record Vin
{
    public const int Length = 17;

    private const int CheckPlace = 8;
    private const int YearPlace = 9;

    // 49 CFR 565.15(c)(4)(i), table III: the values of the letters A to Z; a digit is its own value, and 0 marks what is never used.
    private const string LetterValues = "12345678012345070923456789";

    // 49 CFR 565.15(c)(4)(ii), table IV: the weights of the seventeen places.
    private static readonly int[] Weights = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];

    // 49 CFR 565.15(d)(1), table VII: the codes of thirty model years from 1980, begun again in 2010; without I, O, Q, U, Z and 0.
    private const string YearCodes = "ABCDEFGHJKLMNPRSTVWXY123456789";
    private const int FirstYear = 1980;

    // Signs that worn plates make alike; common practice, no source.
    private static readonly (char One, char Other)[] Alike = [('S', '5'), ('B', '8'), ('Z', '2'), ('G', '6')];

    private Vin(string text) => Text = text;

    /// <summary>Seventeen capital letters and digits.</summary>
    public string Text { get; }

    /// <summary>The sum of each place's value times its weight.</summary>
    public int WeightedSum => Text.Select((sign, place) => ValueOf(sign) * Weights[place]).Sum();

    /// <summary>What the ninth place has to be where the check digit is required: the sum's remainder by eleven, X for ten.</summary>
    public char CheckDigit => "0123456789X"[WeightedSum % 11];

    public bool HasItsCheckDigit => Text[CheckPlace] == CheckDigit;

    /// <summary>By its first sign; null where none is assigned.</summary>
    /// <remarks>The regions of ISO 3780:2009, from memory. Some codes were given out anew since (H and 7 among them): a hint, not a proof.</remarks>
    public WorldRegion? Region => Text[0] switch
    {
        >= 'A' and <= 'H' => WorldRegion.Africa,
        >= 'J' and <= 'R' => WorldRegion.Asia,
        >= 'S' and <= 'Z' => WorldRegion.Europe,
        >= '1' and <= '5' => WorldRegion.NorthAmerica,
        '6' or '7' => WorldRegion.Oceania,
        '8' or '9' => WorldRegion.SouthAmerica,
        _ => null,
    };

    public bool NeedsCheckDigit => Region == WorldRegion.NorthAmerica;

    /// <summary>False only where the check digit is required and another stands there.</summary>
    public bool IsValid => HasItsCheckDigit || !NeedsCheckDigit;

    /// <summary>The model years the tenth place can mean, thirty years apart; none where the code means none. Outside North America the place is the maker's to use.</summary>
    public IReadOnlyList<int> ModelYears =>
        YearCodes.IndexOf(Text[YearPlace]) is >= 0 and var code ? [FirstYear + code, FirstYear + YearCodes.Length + code] : [];

    /// <summary>Where a required check digit differs: the numbers that differ in one sign that worn plates make alike, and have theirs.</summary>
    public IReadOnlyList<string> LikelyMeant => IsValid ? [] :
    [
        .. from place in Enumerable.Range(0, Length)
           from pair in Alike
           where Text[place] == pair.One || Text[place] == pair.Other
           let other = new Vin($"{Text[..place]}{(Text[place] == pair.One ? pair.Other : pair.One)}{Text[(place + 1)..]}")
           where other.HasItsCheckDigit && other.EndsInDigits
           select other.Text
    ];

    /// <summary>The last four places are digits everywhere (ISO 3779; from memory).</summary>
    private bool EndsInDigits => Text[^4..].All(char.IsAsciiDigit);

    /// <summary>The number in a text, or the one sentence that says why it is none.</summary>
    /// <param name="text">Small letters, spaces and hyphens do not matter.</param>
    public static Answer<Vin> Read(string text)
    {
        var signs = new string([.. text.Where(sign => sign is not (' ' or '-'))]).ToUpperInvariant();
        var wrong = signs.FirstOrDefault(sign => ValueOf(sign) == 0 && sign != '0');
        return signs.Length != Length
                ? Answer.None<Vin>($"“{Shown(signs)}” has {signs.Length} signs, and a vehicle identification number has {Length}; numbers from before 1981 may be shorter and have no check digit.")
            : wrong is 'I' or 'O' or 'Q'
                ? Answer.None<Vin>($"“{signs}” has the letter {wrong} in place {signs.IndexOf(wrong) + 1}, and I, O and Q are never used; did you mean {Meant(signs)}?")
            : wrong != default ? Answer.None<Vin>($"“{Shown(signs)}” has “{Shown(wrong.ToString())}” in place {signs.IndexOf(wrong) + 1}; a vehicle identification number has letters A to Z and digits only.")
            : new Vin(signs);
    }

    /// <summary>0 for what is never used, and for the digit 0.</summary>
    private static int ValueOf(char sign) => sign switch
    {
        >= '0' and <= '9' => sign - '0',
        >= 'A' and <= 'Z' => LetterValues[sign - 'A'] - '0',
        _ => 0,
    };

    private static string Meant(string signs) => signs.Replace('I', '1').Replace('O', '0').Replace('Q', '0');

    /// <summary>A text as it can be shown: cut, and without what could turn the line round.</summary>
    private static string Shown(string text) =>
        new([.. text.Take(40).Select(sign => char.IsLetterOrDigit(sign) || char.IsPunctuation(sign) || char.IsSymbol(sign) ? sign : '?')]);
}
