namespace Lastoff.Core.Recording;

/// <summary>“Have to order a new M12 bolt and a washer”: things to be had, of which nothing came off.</summary>
internal static class Ordered
{
    /// <summary>Where the things begin that words ask to be ordered; null where they ask for none. “Firing order 1342” does not.</summary>
    public static int? ThingsFrom(IReadOnlyList<Token> tokens, PhraseBook book)
    {
        var at = 0;
        while (at < tokens.Count && Is(tokens[at], WordKind.OrderingLeads, book))
        {
            at++;
        }

        return at + 1 < tokens.Count && Is(tokens[at], WordKind.Ordering, book) && BeginsThing(tokens[at + 1], book) ? at + 1 : null;
    }

    /// <summary>An article, a number or “new”: “a washer”, “two hose clamps”.</summary>
    public static bool BeginsThing(Token token, PhraseBook book) => token.Number is not null || book.Of(token.Lower, WordKind.Article, WordKind.Numbers, WordKind.NewOnes) is not null;

    public static bool IsOf(Clause clause, string line, PhraseBook book) => ThingsFrom(Words(clause, line, book), book) is not null;

    /// <summary>The clauses, with the things behind the first that is ordered in one with it: of none of them anything is undone.</summary>
    public static List<Clause> Whole(List<Clause> clauses, string line, PhraseBook book)
    {
        List<Clause> whole = [];
        // What the things behind the first are asked for by.
        var (isOrdered, isNeeded) = (false, false);
        List<Term> terms = [];
        foreach (var clause in clauses)
        {
            // “Need a new gasket and two bolts”, “order a bolt, a nut and washers”.
            if (!clause.IsStart && (isOrdered || isNeeded && clause.Joined == Joined.And) && IsThing(clause, line, book))
            {
                terms.AddRange(clause.Terms);
                continue;
            }

            (isOrdered, isNeeded) = (IsOf(clause, line, book), IsNeeded(clause, line, book));
            terms = isOrdered || isNeeded ? [.. clause.Terms] : [];
            whole.Add(terms.Count > 0 ? clause with { Terms = terms } : clause);
        }

        return whole;
    }

    private static bool IsNeeded(Clause clause, string line, PhraseBook book) => clause.Terms[0].Is(WordKind.Remarks) && book.Has(clause.Terms[0].Lower(line), WordKind.Needs);

    /// <summary>A name, and nothing that was done or found.</summary>
    private static bool IsThing(Clause clause, string line, PhraseBook book) => (clause.Joined == Joined.And || BeginsThing(Words(clause, line, book)[0], book))
        && !clause.Has(WordKind.Deeds, WordKind.DeedsOf, WordKind.Verbs, WordKind.Flags, WordKind.Stuck, WordKind.Tray, WordKind.Volume, WordKind.NotDone, WordKind.Remarks, WordKind.Covering);

    private static List<Token> Words(Clause clause, string line, PhraseBook book) => book.Cut(line[clause.Whole.Start..clause.Whole.End]);

    private static bool Is(Token token, WordKind kind, PhraseBook book) => book.Of(token.Lower, kind) is not null;
}
