namespace Lastoff.Core.Recording;

/// <summary>The lead of a spark plug, which most call by no more than “plug lead”. Any other connector has a plug as well.</summary>
internal static class SparkLead
{
    private const string OfAnyPlug = "plug";

    /// <summary>Whether words name it: “spark plug lead”, “front plug lead”; a “sensor plug lead” is a wire.</summary>
    public static bool Is(string words, PhraseBook book)
    {
        var tokens = book.Cut(words);
        for (var at = 0; at < tokens.Count; at++)
        {
            if (book.At(tokens, at, WordKind.Sparks) is { } phrase
                && (phrase.Value != OfAnyPlug || tokens.Take(at).All(token => token.Number is not null || book.Of(token.Lower, WordKind.JointModifiers, WordKind.Sides, WordKind.Numbers) is not null)))
            {
                return true;
            }
        }

        return false;
    }
}
