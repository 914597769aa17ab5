namespace Lastoff.Core.Recording;

/// <summary>A seal, of which the words say that nobody puts it back: “cover O-ring squashed flat, bin”. Of another thing they may say no more than how it lies.</summary>
internal static class SpentSeal
{
    /// <summary>Where the name of a thing ends, of which no more is told than how it looks or where it goes; null where it is not spent by that.</summary>
    public static int? NameEnd(List<Token> tokens, PhraseBook book)
    {
        var end = Enumerable.Range(0, tokens.Count).FirstOrDefault(at => at > 0 && StateAt(tokens, at, book) > 0, tokens.Count);
        return end < tokens.Count && IsSpent(tokens, end, book) ? end : null;
    }

    /// <summary>Whether words say so and no more, from one to the last.</summary>
    public static bool IsSpent(List<Token> tokens, int from, PhraseBook book)
    {
        var isSpent = false;
        while (from < tokens.Count && StateAt(tokens, from, book) is > 0 and var words)
        {
            isSpent |= book.At(tokens, from, WordKind.Spent) is not null;
            from += words;
        }

        return isSpent && from == tokens.Count;
    }

    private static int StateAt(List<Token> tokens, int at, PhraseBook book) =>
        (book.At(tokens, at, WordKind.Spent) ?? book.At(tokens, at, WordKind.Worn) ?? book.At(tokens, at, WordKind.Flags) ?? book.At(tokens, at, WordKind.Pronouns))?.Words.Count ?? 0;
}
