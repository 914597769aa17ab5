using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>What is in a hose or pipe.</summary>
/// <param name="Supply">Null for air, steam and other things that only press.</param>
/// <param name="Said">The words that say so.</param>
internal sealed record Carried(SupplyKind? Supply, string Said)
{
    /// <summary>What a name of a hose, pipe or part says of it, by the word that stands nearest to its end: a “brake vacuum hose” carries vacuum.</summary>
    public static Carried? By(string name, PhraseBook book)
    {
        var tokens = book.Cut(name);
        for (var at = tokens.Count - 1; at >= 0; at--)
        {
            if (At(tokens, at, book) is { } said)
            {
                return new Carried(Words<SupplyKind>.TryRead(said.Value, out var kind) ? kind : null, name[tokens[at].Start..tokens[at + said.Words.Count - 1].End]);
            }
        }

        return null;
    }

    private static Phrase? At(List<Token> tokens, int at, PhraseBook book) =>
        book.At(tokens, at, WordKind.Carries) ?? book.At(tokens, at, WordKind.FluidSorts)
        // “Brems|leitung”.
        ?? (book.Compound(tokens[at].Lower) is { } end ? book.Of(tokens[at].Lower[..end], WordKind.Carries, WordKind.FluidSorts) : null);
}
