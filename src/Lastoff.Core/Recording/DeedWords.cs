namespace Lastoff.Core.Recording;

/// <summary>Deeds of two words: where the second stands, and what it makes of the first.</summary>
internal sealed class DeedWords(IReadOnlyList<Term> terms, string line, PhraseBook book)
{
    /// <summary>“Knocked out” and “knocked back”: the second word says whether the thing is off or aside.</summary>
    public string ByParticle(string deed, int particle) =>
        // “Pushed the pin out”, “pushed the hose to one side”.
        deed == "pushed" ? IsAside(particle) || Particle(particle) is not { Value: "removed" } ? "aside" : "removed"
        : deed == "removed" && (IsAside(particle) || Particle(particle) is { Value: "aside" }) ? "aside" : deed;

    // “Undone and off” is off; “swung out of the way” is aside.
    private static int Weight(string? deed) => deed switch { null => 0, "undone" => 1, "removed" => 2, _ => 3 };

    public static string Heavier(string? deed, string other) => Weight(deed) > Weight(other) ? deed! : other;

    public bool EndsThing(int at) => at + 1 >= terms.Count || terms[at + 1].Is(WordKind.From, WordKind.With);

    /// <summary>Where the second word of a deed stands: “let the oil out”, “let the oil out of the tank”.</summary>
    public int? FirstParticle(int verb)
    {
        for (var at = verb + 1; at < terms.Count; at++)
        {
            if (EndsDeed(at) || at > verb + 1 && LeadsOut(at))
            {
                return at;
            }
        }

        return null;
    }

    public bool IsParticle(int at) => IsAside(at) || book.Of(terms[at].Lower(line), WordKind.Particles) is not null;

    private Phrase? Particle(int at) => book.Of(LeadsOut(at) ? terms[at].Lower(line).Split(' ')[0] : terms[at].Lower(line), WordKind.Particles);

    // “Out of”: the particle, and what leads to the place.
    private bool LeadsOut(int at) => terms[at].Is(WordKind.From) && terms[at].Lower(line).Split(' ') is [var first, _] && book.Of(first, WordKind.Particles) is { Value: "removed" };

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
