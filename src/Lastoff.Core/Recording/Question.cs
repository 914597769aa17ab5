using System.Globalization;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>What a line can leave open.</summary>
public enum Doubt
{
    /// <summary>“bolt 12”: how many, or the size of the head?</summary>
    CountOrHead,
    /// <summary>“left-hand bolt”: its thread, or its side?</summary>
    ThreadOrSide,
    /// <summary>“driver's side”: which side is that here?</summary>
    WhichSide,
    /// <summary>“two gallons”: of which country? The volumes are those of <see cref="Volume"/>.</summary>
    WhichGallon,
    /// <summary>“seized” and nothing else: is it out by now?</summary>
    IsItOut,
    /// <summary>“one flange bolt stuck” after “four flange bolts out”: a fifth, or one of the four?</summary>
    OneOfThem,
}

/// <summary>One short question, with the number it is about where it is about one.</summary>
public sealed record Question(Doubt Doubt, double? Number = null)
{
    /// <summary>“gal”, “pt” or “qt” where the question is about an amount.</summary>
    public string? Unit { get; init; }
    /// <summary>What is asked next where the answer is no.</summary>
    public Question? Else { get; init; }

    public string Sentence => Doubt switch
    {
        Doubt.CountOrHead => $"Is {Figure} how many, or the size of the head?",
        Doubt.ThreadOrSide => "Has it a left-hand thread, or does it sit on the left?",
        Doubt.WhichSide => "Which side is that on this machine, looking forward?",
        Doubt.WhichGallon => "US or imperial measure?",
        Doubt.OneOfThem => $"Is it one of the {Figure} told before?",
        _ => "Is it out by now?",
    };

    /// <summary>Two or three answers, in the order <see cref="Answered"/> counts them.</summary>
    public IReadOnlyList<string> Answers => Doubt switch
    {
        Doubt.CountOrHead => [$"{Figure} of them", $"{Figure} mm head"],
        Doubt.ThreadOrSide => ["left-hand thread", "left side"],
        Doubt.WhichSide => ["left", "right"],
        Doubt.WhichGallon => ["US", "imperial"],
        _ => ["yes", "no"],
    };

    /// <summary>The reading once the question is answered.</summary>
    /// <param name="answer">The place of the answer among <see cref="Answers"/>, from 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such answer.</exception>
    public Reading Answered(Reading reading, int answer)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(answer);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(answer, Answers.Count);
        var first = answer == 0;
        var settled = reading with { Question = null };
        return Doubt switch
        {
            Doubt.CountOrHead when Number is { } number => first ? settled with { Count = (int)number } : settled with { Across = Size.FromMillimetres(number) },
            Doubt.ThreadOrSide => first ? settled with { LeftHand = true } : settled with { At = Position.Left },
            Doubt.WhichSide => settled with { At = first ? Position.Left : Position.Right },
            Doubt.WhichGallon => settled with
            {
                Volume_L = Volume.TryParseLitres(string.Create(CultureInfo.InvariantCulture, $"{Number:R} {(first ? "US" : "imp")} {Unit}"), out var litres) ? litres : null,
            },
            Doubt.IsItOut => settled with { Deed = first ? Deed.Undone : Deed.Note },
            Doubt.OneOfThem => first ? Recording.OneOfThem.Of(settled) : settled with { Question = Else },
            _ => settled,
        };
    }

    private string Figure => string.Create(CultureInfo.InvariantCulture, $"{Number:0.##}");
}
