namespace Lastoff.Core.Recording;

/// <summary>Whether a line says of what was stuck that it came: “came with heat”, “came loose in the end”.</summary>
internal static class CameOut
{
    public static bool Says(string line, PhraseBook book)
    {
        var tokens = book.Cut(line);
        var isNot = false;
        for (var at = 0; at < tokens.Count; at++)
        {
            if (!isNot && book.At(tokens, at, WordKind.CameOut) is not null)
            {
                return true;
            }

            // “Never came with heat”, up to the next sign.
            isNot = (isNot || (book.At(tokens, at, WordKind.Nots) ?? book.At(tokens, at, WordKind.NotDone)) is not null) && char.IsLetterOrDigit(tokens[at].Lower[0]);
        }

        return false;
    }
}
