namespace Lastoff.Core.Recording;

/// <summary>A line that may say that something fell into the machine: “dropped a washer into the bell housing”, “nut fell down the spark plug hole”. Only the person knows, so it is asked.</summary>
/// <param name="What">What fell, as it is said.</param>
/// <param name="Where">Into what.</param>
public sealed record FallenIn(string What, string Where)
{
    internal static FallenIn? Read(string line, PhraseBook book)
    {
        var tokens = Tokenizer.Cut(line);
        for (var at = 0; at < tokens.Count; at++)
        {
            if (book.At(tokens, at, WordKind.Falling) is not { } falling)
            {
                continue;
            }

            for (var into = at + falling.Words.Count; into < tokens.Count - 1; into++)
            {
                if (book.At(tokens, into, WordKind.Inside) is not { } inside)
                {
                    continue;
                }

                // “A washer fell into …” has it in front, “dropped a washer into …” between.
                var between = Words(line, tokens, at + falling.Words.Count, into, book);
                var what = between.Length > 0 ? between : Words(line, tokens, 0, at, book);
                var where = Words(line, tokens, into + inside.Words.Count, tokens.Count, book);
                return what.Length > 0 && where.Length > 0 ? new FallenIn(what, where) : null;
            }
        }

        return null;
    }

    /// <summary>The words from one token up to another, without the articles in front and up to the first sign.</summary>
    private static string Words(string line, List<Token> tokens, int from, int to, PhraseBook book)
    {
        while (from < to && (book.Of(tokens[from].Lower, WordKind.Article, WordKind.Determiners, WordKind.Fillers) is not null))
        {
            from++;
        }

        var end = from;
        while (end < to && (char.IsLetterOrDigit(tokens[end].Lower[0])))
        {
            end++;
        }

        return end == from ? "" : line[tokens[from].Start..tokens[end - 1].End];
    }
}
