namespace Lastoff.Core.Recording;

/// <summary>Deeds of two words: where the second stands, and what it makes of the first.</summary>
internal sealed class DeedWords(IReadOnlyList<Term> terms, string line, PhraseBook book)
{
    /// <summary>“Knocked out” and “knocked back”: the second word says whether the thing is off or aside.</summary>
    public string ByParticle(string deed, int particle) =>
        // “Pushed the pin out”, “pushed the hose to one side”.
        deed == "pushed" ? IsAside(particle) || book.Of(terms[particle].Lower(line), WordKind.Particles) is not { Value: "removed" } ? "aside" : "removed"
        : deed == "removed" && (IsAside(particle) || book.Of(terms[particle].Lower(line), WordKind.Particles) is { Value: "aside" }) ? "aside" : deed;

    // “Undone and off” is off; “swung out of the way” is aside.
    private static int Weight(string? deed) => deed switch { null => 0, "undone" => 1, "removed" => 2, _ => 3 };

    public static string Heavier(string? deed, string other) => Weight(deed) > Weight(other) ? deed! : other;

    public bool EndsThing(int at) => at + 1 >= terms.Count || terms[at + 1].Is(WordKind.From, WordKind.With);

    public int? FirstParticle(int at)
    {
        while (++at < terms.Count)
        {
            if (EndsDeed(at))
            {
                return at;
            }
        }

        return null;
    }

    public bool IsParticle(int at) => IsAside(at) || book.Of(terms[at].Lower(line), WordKind.Particles) is not null;

    // “Out of the way”, “to one side”.
    private bool IsAside(int at) => terms[at] is { Kind: WordKind.Deeds, Value: "aside" };

    /// <summary>“Chiselled off”: a word in no list that ends as a deed does.</summary>
    public bool IsUnlisted(int at) => terms[at].Is(WordKind.Word) && at + 1 < terms.Count && (at > 0 || EndsThing(at + 1)) && book.Of(terms[at + 1].Lower(line), WordKind.Particles) is { Value: "removed" }
        && book.Ends(terms[at].Lower(line), WordKind.DeedEnds);

    public bool EndsDeed(int at) => IsParticle(at)
        && (at + 1 >= terms.Count || !terms[at + 1].IsNameable && !terms[at + 1].Is(WordKind.Article, WordKind.Fillers) || IsLast(at));

    // “Took the guard off as well”.
    private bool IsLast(int at)
    {
        while (++at < terms.Count && terms[at].Is(WordKind.Fillers))
        {
        }

        return at == terms.Count;
    }
}
