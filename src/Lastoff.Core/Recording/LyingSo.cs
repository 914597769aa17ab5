namespace Lastoff.Core.Recording;

/// <summary>“Chamfer faces outward”, “arrow faces the pump”, “marks face up”: how a thing lies, and no face that was undone.</summary>
internal static class LyingSo
{
    // “Marks face up”; “carbon face out” is a face that came out.
    private const string OfSeveral = "many";

    public static bool IsOf(Clause clause, string line, PhraseBook book)
    {
        List<Term> terms = [.. clause.Terms];
        var at = terms.FindIndex(term => book.Has(term.Lower(line), WordKind.LiesSo));
        // “Two faces undone”, “gasket faces off”, “faces in tray 2”.
        return at > 0 && at + 1 < terms.Count && !clause.Has(WordKind.Tray) && terms.Take(at).All(term => term.IsNameable || term.Is(WordKind.Sides, WordKind.Fillers, WordKind.Article))
            && (book.Phrase(terms[at].Lower(line), WordKind.LiesSo)!.Value != OfSeveral || book.Of(terms[at - 1].Lower(line)[^1..], WordKind.Plural) is not null)
            && (book.Has(terms[at + 1].Lower(line), WordKind.Directions) || book.Has(terms[at + 1].Lower(line), WordKind.Determiners));
    }
}
