namespace Lastoff.Core.Recording;

/// <summary>Reads a clause that says what was, or was not, in the way: “hose in the way of the bracket”, “it wasn't in the way”.</summary>
internal static class WayReader
{
    /// <returns>Null where the clause says nothing of the kind, or only supposes it.</returns>
    public static Heard? Read(Clause clause, string line, PhraseBook book)
    {
        var terms = clause.Terms;
        var at = terms.Index().FirstOrDefault(term => term.Item.Is(WordKind.InTheWay), (-1, null!)).Index;
        if (at < 0 || terms.Any(term => term.Is(WordKind.NotDone) && !IsNot(term)))
        {
            return null;
        }

        var isNot = terms.Take(at).Any(IsNot);
        var what = Name(terms.Take(at).SkipWhile(IsEmpty).TakeWhile(term => !IsEmpty(term) || term.Is(WordKind.Article)));
        var of = Name(terms.Skip(at + 1).SkipWhile(term => IsEmpty(term) || IsOf(term)).TakeWhile(term => !IsEmpty(term) && (IsOf(term) || !term.Is(WordKind.Deeds, WordKind.Verbs, WordKind.DeedsOf, WordKind.From, WordKind.With))));
        foreach (var term in terms.Where(term => IsEmpty(term) || IsOf(term) || term.Is(WordKind.InTheWay)))
        {
            term.IsUsed = true;
        }

        return new Heard(clause, Shape.Thing, new Reading { Deed = isNot ? Deed.NotInTheWay : Deed.InTheWay, Part = what, Of = of }) { SaysDeed = true };

        bool IsNot(Term term) => book.Of(term.Lower(line), WordKind.Nots) is not null;
        bool IsOf(Term term) => book.Of(term.Lower(line), WordKind.OfThem) is not null;
        // “It was in the way”: what was spoken of before.
        bool IsEmpty(Term term) => term.Is(WordKind.Fillers, WordKind.Article) || IsNot(term) || book.Of(term.Lower(line).Split(' ')[0], WordKind.Pronouns) is not null;

        string? Name(IEnumerable<Term> words)
        {
            List<Term> all = [.. words];
            all.ForEach(term => term.IsUsed = true);
            return all.Count == 0 ? null : line[all[0].Start..all[^1].End];
        }
    }

    /// <summary>The reading with what it leaves out taken from the one before; null when there is nothing it could speak of.</summary>
    public static Reading? Whole(Reading way, Reading? before)
    {
        var name = before is null ? null : before.Kind is not null ? RecordedThing.JointName(before) : before.Part ?? before.Fluid;
        return way.Part is not null ? way with { Of = way.Of ?? name } : name is not null ? way with { Part = name } : null;
    }
}
