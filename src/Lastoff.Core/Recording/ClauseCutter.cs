namespace Lastoff.Core.Recording;

/// <summary>Cuts a line into clauses: at its signs and joining words, and where a new thing begins although nothing says so.</summary>
internal static class ClauseCutter
{
    // How far a fastener may stand behind its count: “two long 13 mil allen head bolts”.
    private const int FurthestJoint = 6;
    // “Nut 24 threadlocked” is a size.
    private const int MostToCount = 6;
    // “With the two upper hoses still on”.
    private const int FurthestUndone = 10;

    public static List<Clause> Cut(IReadOnlyList<Term> terms, string line, PhraseBook book)
    {
        var clauses = new List<Clause>();
        var joined = Joined.Stop;
        var current = new List<Term>();
        foreach (var (at, term) in terms.Index())
        {
            if (!LeadsToSundry(terms, at) && (term.Is(WordKind.Comma, WordKind.Breaks, WordKind.And, WordKind.Stops, WordKind.Forgotten) || current.Count > 1 && IsTaking(terms, at, line, book)))
            {
                End();
                var next = term.Kind switch { WordKind.Stops => term.Value.Length > 0 ? Joined.Then : Joined.Stop, WordKind.And => Joined.And, WordKind.Forgotten => Joined.Late, _ => Joined.Comma };
                // “, and” joins; “. Then” and “forgot to say:” stop.
                joined = current.Count == 0 && (joined is Joined.Stop or Joined.Then && clauses.Count > 0 || joined == Joined.Late) && next > joined && next != Joined.Late ? joined : next;
                current = [];
                // A sign is understood; a joining word too.
                term.IsUsed = true;
            }
            else
            {
                current.Add(term);
            }
        }

        End();
        return clauses;

        void End()
        {
            var how = joined;
            foreach (var run in Runs(current, line, book))
            {
                clauses.Add(new Clause(run, how));
                how = Joined.Comma;
            }
        }
    }

    /// <summary>“Bracket off that was five bolts”.</summary>
    private static bool IsTaking(IReadOnlyList<Term> terms, int at, string line, PhraseBook book) => book.Has(terms[at].Lower(line), WordKind.Takes) && at + 1 < terms.Count && terms[at + 1].Is(WordKind.Number)
        && terms.Skip(at + 2).Take(FurthestJoint).Any(term => term.Is(WordKind.Joints, WordKind.NamedJoints));

    // “Two nuts and washers”: the washers go with the nuts.
    private static bool LeadsToSundry(IReadOnlyList<Term> terms, int at) => terms[at].Is(WordKind.And) && at > 0 && terms[at - 1].Is(WordKind.Joints, WordKind.NamedJoints)
        && at + 1 < terms.Count && terms[at + 1].Is(WordKind.Sundries);

    /// <summary>Parts what is spoken without stops: “alternator off three bolts”, “two bolts one nut”, “fan off radiator off”.</summary>
    private static IEnumerable<IReadOnlyList<Term>> Runs(List<Term> terms, string line, PhraseBook book)
    {
        var lastDeed = terms.FindLastIndex(t => IsRemoved(t));
        var start = 0;
        bool sawJoint = false, sawDeed = false, sawWords = false, isBehind = false, sawFluid = false;
        for (var at = 0; at < terms.Count; at++)
        {
            var term = terms[at];
            var begins = at > start && !IsSizeOfOne(terms, at) && ((sawDeed || terms[at - 1].Is(WordKind.Flags)) && (sawWords || sawJoint || sawFluid) && BeginsUndone(terms, at, start, line, book) || BeginsNext(terms, at) || BeginsFastener(terms, at, sawJoint) && (sawJoint || sawDeed && sawWords)
                || BeginsCount(terms, at, start) || IsSizeOfOne(terms, at - 1) || sawJoint && term.Is(WordKind.Number) && (term.Number <= MostToCount || !terms[at - 1].Is(WordKind.Joints, WordKind.NamedJoints) || terms[at - 1].IsPlural) && !terms[at - 1].Is(WordKind.Times) && at + 1 < terms.Count && terms[at + 1].Is(WordKind.Flags));
            if (begins)
            {
                yield return terms[start..at];
                (start, sawJoint, sawDeed, sawWords, isBehind, sawFluid) = (at, false, false, false, false, false);
            }

            isBehind |= term.Is(WordKind.From) && (sawWords || sawJoint);
            sawJoint |= term.Is(WordKind.Joints, WordKind.NamedJoints) && !isBehind;
            sawWords |= term.Is(WordKind.Word, WordKind.Sundries, WordKind.Parts, WordKind.JointModifiers, WordKind.Sides, WordKind.Tools);
            sawFluid |= term.Is(WordKind.Fluids, WordKind.Supplies, WordKind.BatteryLeads);
            sawDeed |= term.Is(WordKind.Deeds, WordKind.Verbs, WordKind.DeedsOf);
            // What is off is said, and another thing comes off later on.
            if (IsRemoved(term) && !LeadsToFastened(terms, at, line, book) && (sawWords || sawJoint) && at < lastDeed && at + 1 < lastDeed)
            {
                yield return terms[start..(at + 1)];
                (start, sawJoint, sawDeed, sawWords, isBehind, sawFluid) = (at + 1, false, false, false, false, false);
            }
        }

        if (start < terms.Count)
        {
            yield return terms[start..];
        }
    }

    /// <summary>“Top bolt thirteen | bottom bolt fifteen”: the size of the one before.</summary>
    private static bool IsSizeOfOne(List<Term> terms, int at) => at > 0 && at + 3 < terms.Count && terms[at].Is(WordKind.Number) && terms[at].Number > MostToCount
        && terms[at - 1] is { IsPlural: false, Kind: WordKind.Joints or WordKind.NamedJoints }
        && terms[at + 1].Is(WordKind.JointModifiers) && terms[at + 2] is { IsPlural: false, Kind: WordKind.Joints or WordKind.NamedJoints } && terms[at + 3].Is(WordKind.Number);

    /// <summary>“Two springs | two bolts”, “three 13s | one seized”.</summary>
    private static bool BeginsCount(List<Term> terms, int at, int start) => at > start + 1 && at + 1 < terms.Count && terms[at].Is(WordKind.Number) && terms[at].Number <= MostToCount
        && (terms[start].Is(WordKind.Number) && terms[at - 1].Is(WordKind.Word, WordKind.Parts) && terms[at + 1].Is(WordKind.Joints, WordKind.NamedJoints)
            && terms.FindIndex(start + 1, at - start - 1, term => !term.Is(WordKind.Word, WordKind.Parts)) < 0
            || terms[at - 1] is { IsPlural: true, Kind: WordKind.Across or WordKind.Drive or WordKind.Thread } && terms[at + 1].Is(WordKind.Flags));

    /// <summary>“Slackened the bolts didn't take them out”, “radiator out with the fan still on”: what was left as it was.</summary>
    private static bool BeginsUndone(List<Term> terms, int at, int start, string line, PhraseBook book)
    {
        if (terms[at].Is(WordKind.NotDone) && !PressureGone.IsTold(terms, at, line, book))
        {
            return terms.FindIndex(start, at - start, term => term.Is(WordKind.With)) < 0;
        }

        return terms[at].Is(WordKind.With) && terms.FindIndex(at, Math.Min(FurthestUndone, terms.Count - at), term => term.Is(WordKind.NotDone)) > at;
    }

    /// <summary>“Two T25 one clamp”, “one 10 one plug”: behind a count and a size begins another group.</summary>
    private static bool BeginsNext(List<Term> terms, int at) => terms[at].Is(WordKind.Number, WordKind.Article) && at >= 2 && at + 1 < terms.Count && IsCountedSize(terms, at)
        && terms.FindIndex(at + 1, term => !term.Is(WordKind.Across, WordKind.Thread, WordKind.Drive, WordKind.JointModifiers)) is var joint and > 0
        && terms[joint].Is(WordKind.Joints, WordKind.NamedJoints);

    private static bool IsCountedSize(List<Term> terms, int at)
    {
        var size = terms[at - 1];
        var count = terms[at - 2].Is(WordKind.Times) && at > 2 ? terms[at - 3] : terms[at - 2];
        return count.Is(WordKind.Number) && (size.Is(WordKind.Drive, WordKind.Across, WordKind.Thread) || size.Is(WordKind.Number) && terms[at].Is(WordKind.Number));
    }

    /// <summary>“Pipe off the manifold three nuts all came free”: off what it was, and not off twice.</summary>
    private static bool LeadsToFastened(List<Term> terms, int at, string line, PhraseBook book)
    {
        if (book.Of(terms[at].Lower(line), WordKind.From) is null)
        {
            return false;
        }

        var start = ++at;
        while (at < terms.Count && terms[at].Is(WordKind.Article, WordKind.Fillers, WordKind.Word, WordKind.Parts, WordKind.Sides, WordKind.JointModifiers))
        {
            at++;
        }

        return at > start + 1 && at < terms.Count && terms[at].Is(WordKind.Number);
    }

    private static bool IsRemoved(Term term) => term is { Kind: WordKind.Deeds, Value: "removed" };

    /// <summary>A count, size or “with” and then a joint, with nothing between but what belongs to it.</summary>
    private static bool BeginsFastener(List<Term> terms, int at, bool sawJoint)
    {
        if (!terms[at].Is(WordKind.Number, WordKind.Across, WordKind.Thread, WordKind.Drive, WordKind.Article, WordKind.With)
            // “Left hanging by one screw” is how.
            || at > 0 && terms[at].Is(WordKind.With) && terms[at - 1] is { Kind: WordKind.Deeds, Value: "aside" }
            || at > 0 && terms[at - 1].Is(WordKind.Number, WordKind.Times, WordKind.OfThem, WordKind.Article, WordKind.With, WordKind.From)
            || at > 0 && terms[at - 1].Is(WordKind.Across, WordKind.Thread, WordKind.Drive) && !(sawJoint && terms[at].Is(WordKind.Number))
            || at > 0 && terms[at - 1] is { Kind: WordKind.Fillers } && at > 1 && terms[at - 2].Is(WordKind.Number, WordKind.From))
        {
            return false;
        }

        var (sawNumber, sawMeasure, names) = (false, false, 0);
        for (var i = at; i < terms.Count && i < at + FurthestJoint; i++)
        {
            // “With a wire” is how, “with two bolts” is what.
            if (terms[i].Is(WordKind.Joints, WordKind.NamedJoints) && (sawNumber || sawMeasure || !terms[at].Is(WordKind.With)) || sawNumber && !sawJoint && terms[i] is { IsPlural: true, Kind: WordKind.Across or WordKind.Thread or WordKind.Drive })
            {
                return true;
            }

            // “Nuts 12 mil one stud”: the size belongs to the nuts.
            if (terms[i].Is(WordKind.Number) && sawMeasure && !sawNumber)
            {
                return false;
            }

            sawNumber |= terms[i].Is(WordKind.Number);
            sawMeasure |= terms[i].Is(WordKind.Across, WordKind.Thread, WordKind.Drive);
            if (!terms[i].Is(WordKind.Number, WordKind.Across, WordKind.Thread, WordKind.Drive, WordKind.Article, WordKind.With, WordKind.Times, WordKind.OfThem,
                WordKind.Length, WordKind.Torque, WordKind.Tray, WordKind.JointModifiers, WordKind.Fillers, WordKind.Flags, WordKind.Sides, WordKind.LeftHand)
                && !(sawNumber && terms[i].Is(WordKind.Word, WordKind.Parts) && ++names <= 2))
            {
                return false;
            }
        }

        // “Six M6 allen”, and no more; “bolts 2 x 10 mm 2 x 13 mm”.
        return (!sawJoint || at >= 2 && IsCountedSize(terms, at)) && sawNumber && sawMeasure && terms.Count <= at + FurthestJoint;
    }
}
