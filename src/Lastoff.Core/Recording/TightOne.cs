namespace Lastoff.Core.Recording;

/// <summary>“One of the guard bolts was tight”, after “four guard bolts out”: how it came, and no fifth bolt.</summary>
internal static class TightOne
{
    /// <summary>The reading as a note, where the line tells of no more than that they came hard, and they are of what was told before. “One guard bolt stuck” may be another, and is asked about.</summary>
    /// <param name="before">What was told in the lines before, the last first.</param>
    /// <param name="saysDeed">The line says that something was done, and not only that it came.</param>
    public static Reading Of(Reading reading, IReadOnlyList<Reading> before, string line, bool saysDeed, PhraseBook book)
    {
        if (saysDeed || reading is not { Deed: Deed.Undone, Tray: null, Broken: false } || !reading.IsTurned())
        {
            return reading;
        }

        var isOfThem = IsOfThem(line, book);
        return IsTight(reading.Note, book) || (isOfThem && reading.Seized)
            ? before.FirstOrDefault(group => OneOfThem.IsOf(reading, group, isOfThem || reading.Count is null)) is { } told && (reading.Part is not null || ReferenceEquals(told, before[0])) ? reading with { Deed = Deed.Note, Question = null } : reading
            : reading;
    }

    private static bool IsTight(string? note, PhraseBook book)
    {
        var tokens = book.Cut(note ?? "");
        var isTight = false;
        for (var at = 0; at < tokens.Count;)
        {
            // “Hand tight” is another thing.
            var phrase = book.At(tokens, at);
            if (phrase is { Kind: WordKind.NotDone } || book.At(tokens, at, WordKind.Nots) is not null)
            {
                return false;
            }

            isTight |= phrase is { Kind: WordKind.Hedges } && book.Has(string.Join(' ', phrase.Words), WordKind.Tight);
            at += phrase?.Words.Count ?? 1;
        }

        return isTight;
    }

    /// <summary>“One of the bolts”, “two of those bolts”: which they are was told.</summary>
    private static bool IsOfThem(string line, PhraseBook book)
    {
        var tokens = book.Cut(line);
        return Enumerable.Range(1, Math.Max(0, tokens.Count - 2)).Any(at => Counting.Of(tokens[at - 1], book) is not null && book.Of(tokens[at].Lower, WordKind.OfThem) is not null && book.Of(tokens[at + 1].Lower, WordKind.Determiners) is not null);
    }
}
