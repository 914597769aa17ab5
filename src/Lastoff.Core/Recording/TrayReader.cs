using System.Globalization;

namespace Lastoff.Core.Recording;

/// <summary>Reads where small things were put: trays and what else is numbered, and places by their names.</summary>
internal sealed class TrayReader(string line, IReadOnlyList<Token> tokens, PhraseBook book)
{
    /// <summary>“Tray 2”, “in the red tray”, “bag C”, with the token behind it; null where none begins.</summary>
    public (Term, int)? At(int at, List<Term> before)
    {
        if (Laid(at, before) is { } laid)
        {
            return laid;
        }

        var start = at;
        if (book.At(tokens, at, WordKind.TrayLeads) is { } lead)
        {
            at += lead.Words.Count;
        }

        if (book.At(tokens, at, WordKind.TrayLooks) is { } look && Phrase(at + look.Words.Count) is { Kind: WordKind.Trays } looked)
        {
            return Made(start, at + look.Words.Count + looked.Words.Count, Slice(at, at + look.Words.Count));
        }

        if (Phrase(at) is not { Kind: WordKind.Trays or WordKind.Containers } holder)
        {
            return null;
        }

        // “Steering box three bolts”: a box with a name is a part.
        if (holder.Kind == WordKind.Containers && at == start && before is [.., { Kind: WordKind.Word or WordKind.Parts or WordKind.JointModifiers }])
        {
            return null;
        }

        var after = at + holder.Words.Count;
        var word = holder.Kind == WordKind.Trays ? "" : book.Noun(string.Join(' ', holder.Words)) + " ";
        if (after < tokens.Count && SpokenNumber.At(tokens, after, book) is { IsFraction: false, IsGroup: false, Value: var number, Next: var next } && number % 1 == 0)
        {
            return Made(start, next, string.Create(CultureInfo.InvariantCulture, $"{word}{number}"));
        }

        if (after < tokens.Count && tokens[after] is { Length: 1 } letter && char.IsLetter(letter.Lower[0]))
        {
            return Made(start, after + 1, word + Slice(after, after + 1));
        }

        // “Six bolts, muffin tin”: of that there is one, and it is no part.
        return holder is { Kind: WordKind.Containers, Words.Count: > 1 } && before.Exists(term => term.Is(WordKind.Joints, WordKind.Count)) && (after == tokens.Count || !char.IsLetterOrDigit(tokens[after].Lower[0]))
            ? Made(start, after, word.TrimEnd())
            : null;
    }

    /// <summary>“Split link in the magnet lid”, “four bolts on the bench”, “key in the little bag”: where small things were laid is not what they were on.</summary>
    private (Term, int)? Laid(int at, List<Term> before)
    {
        if (book.At(tokens, at, WordKind.LaidLeads) is not { } lead || PlaceAt(at + lead.Words.Count, book.Of(lead.Words[^1], WordKind.Article) is not null) is not { } place)
        {
            return null;
        }

        var clause = before[(before.FindLastIndex(term => term.Is(WordKind.Comma, WordKind.And, WordKind.Stops, WordKind.Breaks, WordKind.Forgotten)) + 1)..];
        var isOfFasteners = (clause.Count > 0 ? clause : before).Exists(term => term.Is(WordKind.Joints, WordKind.NamedJoints) || (term.IsPlural || clause.Count == 0 && place.IsHolder) && term.Is(WordKind.Across, WordKind.Drive, WordKind.Thread));
        // A box that is called by how it looks holds whatever small thing is named; “key in the tin” may be its lock's, and “end in a bucket” drips.
        var isOfName = place.IsHolder && clause.Count > 0 && book.Of(clause[^1].Lower(line), WordKind.Openings, WordKind.Ends) is null && clause.TrueForAll(term => term.IsNameable || term.Is(WordKind.Number, WordKind.Article, WordKind.Fillers, WordKind.Sides));
        return (isOfFasteners || isOfName) && (place.End == tokens.Count || !char.IsLetterOrDigit(tokens[place.End].Lower[0]) || book.At(tokens, place.End) is { Kind: WordKind.Fillers })
            ? Made(at, place.End, Slice(place.From, place.End))
            : null;
    }

    /// <summary>“Magnet lid”, “little bag”, “a box”: of what no look or article stands before may be a part, as “the box”. In the bin lies what is thrown away.</summary>
    /// <param name="isAny">An article that says “any” stands before.</param>
    private (int From, int End, bool IsHolder)? PlaceAt(int from, bool isAny)
    {
        var at = from;
        while (book.At(tokens, at, WordKind.TrayLooks) is { } look)
        {
            at += look.Words.Count;
        }

        var holder = isAny || at > from ? book.At(tokens, at, WordKind.Containers) : null;
        return book.At(tokens, from, WordKind.Laid) is { } place ? (from, from + place.Words.Count, holder is not null)
            : holder is { } box && (from == 0 || book.At(tokens, from - 1, WordKind.WantedBehind) is null) ? (from, at + box.Words.Count, true)
            : null;
    }

    private Phrase? Phrase(int at) => at < tokens.Count ? book.At(tokens, at) : null;

    private (Term, int) Made(int from, int to, string value) => (new Term(WordKind.Tray, tokens[from].Start, tokens[to - 1].End) { Value = value }, to);

    private string Slice(int from, int to) => line[tokens[from].Start..tokens[to - 1].End];
}
