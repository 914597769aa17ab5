namespace Lastoff.Core.Recording;

/// <summary>What is told of a fastener that broke: its stub came out, its thread was cut anew. It was told already, and nothing of it comes home.</summary>
internal static class Remains
{
    /// <summary>“Got the stub out with heat”, “old bolt stub drilled out”, “stub of the broken bolt out”.</summary>
    public static bool IsOf(Clause clause, string line, PhraseBook book)
    {
        var terms = clause.Terms;
        for (var at = 0; at < terms.Count; at++)
        {
            if (book.Of(terms[at].Lower(line), WordKind.Remains) is null)
            {
                continue;
            }

            var isOfFastener = at + 1 < terms.Count && terms[at + 1].Is(WordKind.OfThem, WordKind.From, WordKind.Fillers, WordKind.Article) && terms.Skip(at + 1).Any(IsFastener);
            // An “exhaust stub” is a part, and so is a “stub pipe”.
            var isNamed = at > 0 && terms[at - 1].Is(WordKind.Word, WordKind.Parts) && book.Of(terms[at - 1].Lower(line), WordKind.OldOnes) is null;
            if ((isOfFastener || !isNamed) && terms.Index().All(other => !other.Item.Is(WordKind.Joints, WordKind.NamedJoints) || other.Index == at || IsFastener(other.Item) && (other.Index == at - 1 || other.Index > at && isOfFastener)))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>“Drilled it out”: what broke, and was told already.</summary>
    public static bool IsDrilled(Clause clause, string line, PhraseBook book) => clause.Terms.Where(term => !term.Is(WordKind.Fillers, WordKind.Article) || book.Of(term.Lower(line), WordKind.Pronouns, WordKind.Them) is not null).Take(2).ToList() is [var first, var it]
        && book.Has(first.Lower(line), WordKind.Drilled) && (book.Of(it.Lower(line), WordKind.Pronouns) ?? book.Of(it.Lower(line), WordKind.Fillers)) is not null && !clause.Has(WordKind.Joints, WordKind.NamedJoints, WordKind.Word, WordKind.Parts);

    /// <summary>“Thread M8 cleaned up with a tap”, “tapped M8”: of no fastener is this the size; “four M8s cleaned” are four.</summary>
    public static bool IsThreadWork(Clause clause, string line, PhraseBook book) => !clause.Has(WordKind.Joints, WordKind.NamedJoints, WordKind.Number)
        && clause.Terms.Any(term => term.Is(WordKind.Thread, WordKind.InchThreads)) && clause.Terms.Any(term => book.Of(term.Lower(line).Split(' ')[0], WordKind.Rethreaded) is not null);

    /// <summary>“Snapped bracket bolt drilled out”, where it was told that one snapped: how it came out, and no second one comes home.</summary>
    /// <param name="before">What was told in the lines before, the last first.</param>
    public static Reading Told(Reading reading, IReadOnlyList<Reading> before, string line, PhraseBook book) =>
        reading is { Deed: Deed.Undone, Broken: true } && reading.IsTurned() && IsCalledBroken(line, book) && before.Any(other => IsSame(reading, other)) ? reading with { Deed = Deed.Note } : reading;

    private static bool IsSame(Reading reading, Reading other) => other.Broken && RecordedWants.IsCalled(RecordedThing.JointName(reading with { Count = 1 }),
        other is { Deed: Deed.Wanted, Part: { } wanted } ? wanted : other.IsTurned() ? RecordedThing.JointName(other with { Count = 1 }) : "");

    /// <summary>The word for it stands before the thing: “bolt snapped” tells of one more, and so does “another”.</summary>
    private static bool IsCalledBroken(string line, PhraseBook book)
    {
        var terms = TermReader.Read(line, book);
        return Enumerable.Range(0, terms.Count).Any(at => terms[at] is { Kind: WordKind.Flags, Value: "broken" }
            && !(at > 0 && book.Of(terms[at - 1].Lower(line), WordKind.NewOnes) is not null)
            && terms.Skip(at + 1).SkipWhile(term => term.IsNameable && !IsFastener(term) || term.Is(WordKind.Sides, WordKind.Thread, WordKind.Across)).FirstOrDefault() is { } thing && IsFastener(thing));
    }

    private static bool IsFastener(Term term) => term.Is(WordKind.Joints, WordKind.NamedJoints) && ClauseWalk.IsTurned(term);
}
