namespace Lastoff.Core.Recording;

/// <summary>“One flange bolt stuck”, some lines after “four flange bolts out”: it may be one of the four, and then no other comes home.</summary>
public static class OneOfThem
{
    /// <param name="before">What was told in the lines before, the last first.</param>
    /// <returns>The readings, with the question at those that may be of what was told before.</returns>
    public static IReadOnlyList<Reading> Asked(IReadOnlyList<Reading> readings, IReadOnlyList<Reading> before) =>
    [
        .. readings.Select(reading => IsTrouble(reading) && before.FirstOrDefault(group => IsAmong(reading, group)) is { Count: { } count } group && (reading.Part is not null || ReferenceEquals(group, before[0]))
            ? reading with { Question = new Question(Doubt.OneOfThem, count) { Else = reading.Question } }
            : reading),
    ];

    /// <summary>What is left to tell of one that was told with the others: that it gave trouble, and where it broke, that a new one is needed.</summary>
    internal static Reading Of(Reading one) => one.Broken
        ? new Reading { Deed = Deed.Wanted, Part = RecordedThing.JointName(one), Count = one.Count ?? 1, Broken = true, Note = one.Note }
        : one with { Deed = Deed.Note };

    /// <summary>“One of them snapped”, straight behind “four bolts out”: which they are is said.</summary>
    /// <returns>Null where it can be none of them.</returns>
    internal static Reading? Of(Heard one, Reading? group) =>
        one.Reading is { Broken: true, Kind: null, Name: null, Part: null } && group is { Deed: Deed.Undone or Deed.Loose, Count: { } all } && group.IsTurned() && CountOf(one) is { } count && count < all
            ? Of(group with { Count = count, Broken = true, Note = null })
            : null;

    /// <summary>“The sixth one sheared off”, straight behind “five bolts out”: another of the same. “Top left one sheared off” is one of them.</summary>
    internal static Reading Another(Reading reading, Reading? group, PhraseBook book) =>
        reading is not { Deed: Deed.Note, Broken: true, Kind: null, Part: { } which } || group is not { Deed: Deed.Undone or Deed.Loose } || !group.IsTurned() ? reading
        : book.Of(which.ToLowerInvariant(), WordKind.Ordinals) is not null ? group with { Deed = Deed.Undone, Count = 1, Broken = true, Tray = null, Note = reading.Note }
        : CountOf(reading, book) is { } count && count < group.Count ? Of(group with { Count = count, Broken = true, Note = reading.Note })
        : reading;

    /// <summary>How many of a group are told of by which they are: “top left one” is one, of “front ones” the line has to count them.</summary>
    private static int? CountOf(Reading which, PhraseBook book) => which.Part!.Split(' ') is [.. var of, var feature] && IsOfEach(feature, book)
        // “One head chewed”, “top left head chewed”; “head chewed” may be all of them.
        ? of.Length == 0 ? which.Count : IsWhich(string.Join(' ', of), book) ? which.Count ?? 1 : null
        : which.Part!.Split(' ') is [.. var words, var last] && words.Length > 0 && book.Has(last.ToLowerInvariant(), WordKind.Ones)
        ? IsWhich(string.Join(' ', words), book) ? which.Count : null
        : IsWhich(which.Part, book) ? which.Count ?? 1 : null;

    private static bool IsOfEach(string word, PhraseBook book) => book.Has(word.ToLowerInvariant(), WordKind.Heads) || book.Has(word.ToLowerInvariant(), WordKind.Features);

    /// <summary>Whether words only tell which of several: “top left”, “long”.</summary>
    internal static bool IsWhich(string words, PhraseBook book)
    {
        var tokens = book.Cut(words);
        for (var at = 0; at < tokens.Count;)
        {
            if ((book.At(tokens, at, WordKind.LeftHand) ?? book.At(tokens, at, WordKind.Places) ?? book.At(tokens, at, WordKind.Sides) ?? book.At(tokens, at, WordKind.JointModifiers) ?? book.At(tokens, at, WordKind.Ordinals)) is not { } which)
            {
                return false;
            }

            at += which.Words.Count;
        }

        return tokens.Count > 0;
    }

    /// <summary>“Two shear bolts out, one broken”: the other is whole, and one is wanted.</summary>
    /// <param name="read">Reads what was said of a group.</param>
    /// <param name="book">For “top one snapped off”, which is one of them.</param>
    internal static IReadOnlyList<Reading> Parted(IReadOnlyList<Reading> readings, Func<string, Reading, IReadOnlyList<Reading>> read, PhraseBook book)
    {
        List<Reading> wanted = [];
        List<Reading> parted = [];
        foreach (var reading in readings)
        {
            var some = reading is { Broken: true, Count: > 1, Note: { } note } && reading.IsTurned()
                ? note.Split(", ").Select(said => read(said, reading)).Select(told => told is [{ Broken: true, Kind: null, Part: not null } one] && CountOf(one, book) is { } count && count < reading.Count ? [Of(reading with { Count = count, Broken = true, Note = null })] : told).FirstOrDefault(told => told is [{ Deed: Deed.Wanted, Broken: true }])
                : null;
            parted.Add(some is null ? reading : reading with { Broken = false });
            wanted.AddRange(some ?? []);
        }

        return wanted.Count == 0 ? readings : [.. parted, .. wanted.Select(one => one with { Note = null })];
    }

    /// <summary>“One of six bolts snapped”: the other five are whole, and all six are out.</summary>
    internal static IReadOnlyList<Reading> Whole(IReadOnlyList<Reading> readings, Reading? group, PhraseBook book)
    {
        if (readings.Index().FirstOrDefault(at => SomeOf(at.Item, book) is not null) is not (var number, { } told))
        {
            return readings;
        }

        var (some, all) = SomeOf(told, book)!.Value;
        var wanted = Of(some);
        IEnumerable<Reading> Instead(params IEnumerable<Reading> said) => readings.Take(number).Concat(said).Concat(readings.Skip(number + 1));
        // Of those that were told before, the line says no more than that.
        return group is { Deed: Deed.Undone or Deed.Loose } && group.Count == all.Count && IsAmong(some, group with { Part = some.Part is null ? null : group.Part, Name = some.Name is null ? null : group.Name })
            ? [.. Instead(Of(group with { Count = some.Count, Broken = true, Note = all.Note }))]
            : [.. Instead(all), wanted];
    }

    /// <summary>Those that broke, and the whole set, of which the note has all that is not in its count.</summary>
    private static (Reading Some, Reading All)? SomeOf(Reading told, PhraseBook book)
    {
        if (told is not { Deed: Deed.Undone, Broken: true, Count: { } count, Note: { } note } || !told.IsTurned() || book.Cut(note) is not [var of, .. var behind] || book.Of(of.Lower, WordKind.OfThem, WordKind.From) is null)
        {
            return null;
        }

        // “Eine von sechs”: one by its article, and the count is that of all.
        var (some, all, end) = behind is [var number, ..] && Counting.Of(number, book) is { } set ? (count, set, number.End) : (1, count, of.End);
        return some < all && note[end..] is var rest && (rest.Length == 0 || rest[0] is ',' or ';')
            ? (told with { Count = some, Note = null }, told with { Count = all, Broken = false, Note = rest.Trim(' ', ',', ';') is { Length: > 0 } more ? more : null })
            : null;
    }

    /// <summary>A language may count one by its article: “eine davon abgerissen”.</summary>
    private static int? CountOf(Heard one) => one.Reading.Count ?? (int?)one.Open?.Number
        ?? (one.Clause.Terms[0].Is(WordKind.Article) && one.Clause.Terms.Skip(1).All(term => term.Is(WordKind.Fillers, WordKind.Them, WordKind.Flags)) ? 1 : null);

    /// <summary>A line with the answer to a question that one of its readings asks. What the line said already that it needs is not wanted twice.</summary>
    public static IReadOnlyList<Reading> Answered(IReadOnlyList<Reading> readings, int at, int answer)
    {
        var told = readings[at].Question!.Answered(readings[at], answer);
        return [.. readings.Index().Where(other => other.Index == at || !IsSameWant(other.Item, told)).Select(other => other.Index == at ? told : other.Item)];
    }

    /// <summary>Whether both say that the same thing is to be had, however its first letter is written.</summary>
    internal static bool IsSameWant(Reading one, Reading other) =>
        one is { Deed: Deed.Wanted, Part: { } name } && other is { Deed: Deed.Wanted, Part: { } called } && RecordedThing.Plain(name) == RecordedThing.Plain(called) && (one.Of is null || other.Of is null || Same(one.Of, other.Of));

    /// <summary>That a thing came hard is told behind its deed; put in a tray by itself, it is by itself.</summary>
    private static bool IsTrouble(Reading reading) => reading is { Deed: Deed.Undone, Tray: null, Question: null or { Doubt: Doubt.IsItOut } } && reading.IsTurned() && (reading.Seized || reading.Broken);

    private static bool IsAmong(Reading one, Reading group) => group.Count > (one.Count ?? 1) && IsOf(one, group, isCounted: false);

    /// <summary>Whether a thing is of a group that is told by the same name, or by that with words in front that only tell which of them it is: “last guard bolt”.</summary>
    /// <param name="isCounted">Whether the group may be one of which nobody said how many it is, since the line speaks of several.</param>
    internal static bool IsOf(Reading one, Reading group, bool isCounted) => group.Deed is Deed.Undone or Deed.Loose && group.Kind == one.Kind && (group.Count >= (one.Count ?? 1) || isCounted && group.Count is null)
        && (Same(one.Part, group.Part) || one is { Part: { } part } && group.Part is { } whole && part.EndsWith($" {whole}", StringComparison.OrdinalIgnoreCase) && LineReader.IsWhich(part[..^(whole.Length + 1)])) && Same(Single(one.Name), Single(group.Name)) && (one.Across is null || one.Across == group.Across);

    private static string? Single(string? name) => name is null ? null : LineReader.One(name).TrimEnd('s');

    private static bool Same(string? one, string? other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
