namespace Lastoff.Core.Recording;

/// <summary>Reads a clause about what holds something still for a time: “drum pin in so it can't turn”, “put a bar through the flywheel to stop it turning”, “locking pin in the crank”. Left in, it breaks the machine or throws what holds it: it has to come out again, as a cover has.</summary>
internal static class HoldReader
{
    // “Big long flat bar”.
    private const int LongestName = 4;
    // “, so that the big drum can't possibly turn”: as many signs.
    private const int LongestWhy = 60;
    // “To keep the piston from moving”, around the word that says so; more may tell of something else.
    private const int LongestAround = 4;

    /// <returns>Null where the clause says nothing of the kind.</returns>
    public static Heard? Read(Clause clause, string line, PhraseBook book)
    {
        var (start, end) = clause.Whole;
        var told = book.Cut(line[start..end]);
        var why = told.FindIndex(token => book.Has(token.Lower, WordKind.HoldsSo));
        var lead = Enumerable.Range(0, told.Count).FirstOrDefault(at => at > 0 && book.At(told, at, WordKind.HoldsIn) is not null, -1);
        if (lead < 0 || told.Take(lead).Any(token => book.Of(token.Lower, WordKind.NotDone) is not null))
        {
            return null;
        }

        // “So it can't turn”, “to stop it turning”, behind a comma too: whatever else follows “so” or “to” holds nothing.
        var isWhy = IsWhy(why > lead ? told[why..] : book.Cut(line[end..Math.Min(line.Length, end + LongestWhy)].TrimStart(' ', ',').Split(',', '.')[0]), book);
        // “So it can't turn” tells no more than that it holds; a longer story stays in the note.
        var isSaid = why > lead && isWhy;
        var used = start + told[isSaid && !IsBareWhy(told[why..], book) ? why - 1 : told.Count - 1].End;
        told = isSaid ? told[..why] : told;
        var thing = told[..lead][(told.FindLastIndex(lead - 1, token => IsArticle(token, book)) + 1)..];
        if (thing.Count is 0 or > LongestName || !book.Has(Text(thing), WordKind.Locks) && !(isWhy && book.Has(thing[^1].Lower, WordKind.Holders)))
        {
            return null;
        }

        List<Token> place = [.. told.Skip(lead + book.At(told, lead, WordKind.HoldsIn)!.Words.Count).SkipWhile(token => IsArticle(token, book)).TakeWhile(token => book.Of(token.Lower, WordKind.Verbs, WordKind.Deeds, WordKind.DeedEnds) is null)];
        if (place.Count > LongestName || place.Any(token => book.Of(token.Lower, WordKind.Trays, WordKind.Containers) is not null))
        {
            return null;
        }

        foreach (var term in clause.Terms.Where(term => term.End <= used))
        {
            term.IsUsed = true;
        }

        // “Drum pin in”: the drum's.
        var held = place.Count > 0 ? place : book.Has(Text(thing), WordKind.Locks) ? [] : thing[..^1];
        return new Heard(clause, Shape.Thing, new Reading { Deed = Deed.Covered, Part = held.Count > 0 ? Said(held) : null, Cover = Said(thing) }) { SaysDeed = true };

        string Said(List<Token> words) => line[(start + words[0].Start)..(start + words[^1].End)];
    }

    /// <summary>“So it can't turn”, as a clause of its own; null where it is no such clause.</summary>
    public static Heard? Why(Clause clause, string line, PhraseBook book) => IsBareWhy(book.Cut(line[clause.Whole.Start..clause.Whole.End]), book) ? new Heard(clause, Shape.Why, new Reading()) : null;

    private static bool IsBareWhy(List<Token> words, PhraseBook book) => IsWhy(words, book) && words.FindIndex(1, word => book.Has(word.Lower, WordKind.HoldsFrom)) is var from && from <= LongestAround && words.Count - from - 1 <= LongestAround
        && !words.Exists(word => word.Number is not null || book.Of(word.Lower, WordKind.Joints, WordKind.NamedJoints, WordKind.Trays) is not null);

    private static bool IsWhy(List<Token> words, PhraseBook book) => words is [var first, .. var rest] && book.Has(first.Lower, WordKind.HoldsSo) && rest.Exists(word => book.Has(word.Lower, WordKind.HoldsFrom));

    private static string Text(List<Token> words) => string.Join(' ', words.Select(word => word.Lower));

    private static bool IsArticle(Token token, PhraseBook book) => book.Of(token.Lower, WordKind.Article, WordKind.Determiners, WordKind.Fillers) is not null;
}
