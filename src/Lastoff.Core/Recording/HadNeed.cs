namespace Lastoff.Core.Recording;

/// <summary>“Was tight, needed the breaker bar”: what it took to get it out, and nothing that is still to be had.</summary>
internal static class HadNeed
{
    /// <param name="tokens">What stands between two signs.</param>
    /// <param name="at">Where a phrase of what is wanted begins.</param>
    public static bool Says(List<Token> tokens, int at, Phrase wanted, PhraseBook book)
    {
        var next = at + wanted.Words.Count;
        while (next < tokens.Count && IsLeading(tokens[next]))
        {
            next++;
        }

        // “Gasket needed”, “needed for the pump”.
        if (!book.Has(string.Join(' ', wanted.Words), WordKind.HadNeed) || next == tokens.Count || book.At(tokens, at + wanted.Words.Count, WordKind.From) is not null)
        {
            return false;
        }

        return tokens.Take(at).All(IsLeading) || Enumerable.Range(next, tokens.Count - next).Any(word => (book.At(tokens, word, WordKind.Tools) ?? book.At(tokens, word, WordKind.Hands)) is not null);

        bool IsLeading(Token word) => book.Of(word.Lower, WordKind.Article, WordKind.Determiners, WordKind.Fillers, WordKind.Pronouns) is not null;
    }
}
