using Lastoff.Core.Languages;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Reads a line of plain words in one language.</summary>
public sealed class LineReader
{
    private static readonly Lazy<IReadOnlyDictionary<string, LineReader>> ByLanguage = new(() =>
        Language.All.ToDictionary(language => language.Code, language => language == Language.English ? English! : With(Embedded(language.Code))));

    private readonly PhraseBook _book;

    private LineReader(PhraseBook book) => _book = book;

    public static LineReader English { get; } = With(Embedded("en"));

    /// <summary>The reader of a language, by its code.</summary>
    public static LineReader In(string language) => language == Language.English.Code ? English : ByLanguage.Value.GetValueOrDefault(language, English);

    /// <summary>Reads a line in a language, or in English where that language finds nothing in it that was done: a bay may speak both.</summary>
    /// <param name="before">What was told in the lines before, the last first: a line that names nothing may speak of that.</param>
    public static RecordedLine Read(string line, string language, IReadOnlyList<Reading>? before = null)
    {
        var last = SpokenOf.Last(before);
        LineReader[] readers = In(language) is var own && ReferenceEquals(own, English) ? [English] : [own, English];
        var told = own.Read(line, last);
        if (readers.Length > 1)
        {
            told = told.Readings.Any(IsTold) || own.KnowsForNote(line) || English.Read(line, last) is var other && !other.Readings.Any(IsTold)
                ? told with { Readings = [.. told.Readings.Select(own.Named)] }
                : other;
        }

        var readings = readers.Aggregate(told.Readings, (all, reader) => OneOfThem.Whole(all, last, reader._book));
        readings = readers.Aggregate(readings, (all, reader) => OneOfThem.Parted(all, (said, group) => reader.Read(said, group).Readings, reader._book));
        readings = [.. readings.Select(reading => readers.Aggregate(reading, (one, reader) => Remains.Told(one, before ?? [], line, reader._book))).SelectMany(reading => CoverOut.Of(reading, line, before ?? []))];
        readings = [.. readings.Select(reading => readers.Aggregate(reading, (one, reader) => OneOfThem.Another(one, last, reader._book)))];
        readings = readers.Aggregate(readings, (all, reader) => PulledPlug.Told(all, before ?? [], line, reader._book));
        var saysDeed = Array.Exists(readers, reader => reader.SaysDeed(line));
        readings = [.. readings.Select(reading => readers.Aggregate(reading, (one, reader) => TightOne.Of(one, before ?? [], line, Array.Exists(readers, each => each.SaysDeed(line, besides: WordKind.CameOut)), reader._book)))];
        told = told with { Readings = [.. readings.Select(reading => ToldTorques.Alone(reading, before ?? [], saysDeed)).Select(reading => AmountTold.Of(reading, before ?? [], saysDeed))] };
        return readers.Select(reader => reader.WithWanted(told, last, saysDeed)).FirstOrDefault(wanted => wanted is not null) ?? told;

        static bool IsTold(Reading reading) => reading.Deed != Deed.Note || reading.Question is not null;
    }

    /// <summary>A joint or supply that the line gives no name of its own has the plain one of its kind, which is kept in the language it was told in.</summary>
    private Reading Named(Reading reading) => reading switch
    {
        { Kind: { } kind, Name: null } when _book.PlainWord(WordKind.Joints, Words<JointKind>.Of(kind), reading.Count > 1) is { } word =>
            reading with { Name = kind is JointKind.Hose or JointKind.Pipe && reading.Part is { } part ? $"{part}-{word}" : word },
        { Deed: Deed.Safe, Supply: { } supply, Part: null, Fluid: null } when _book.PlainWord(WordKind.Supplies, Words<SupplyKind>.Of(supply), false) is { } word => reading with { Part = word },
        _ => reading,
    };

    /// <summary>The line with what it says in passing that the job needs; null where that is nothing.</summary>
    /// <param name="saysDeed">The line says that something was done.</param>
    private RecordedLine? WithWanted(RecordedLine line, Reading? last, bool saysDeed)
    {
        var before = line.Readings.LastOrDefault(reading => reading.Deed is Deed.Undone or Deed.Loose or Deed.Off or Deed.Aside) ?? last;
        List<(Reading Reading, string Said)> wanted = [.. new WantedThings(line.Text, _book).Read(IsElsewhere)
            // “One of them snapped, need a new one”.
            .Where(one => one.Reading.Part is not null || !line.Readings.Any(reading => reading.Deed == Deed.Wanted))
            .Select(one => (WantedNames.Whole(one.Reading with { Part = one.Reading.Part ?? Before(one.Reading.Count) }, line.Readings, line.Text, _book), one.Said)).Where(one => one.Item1.Part is not null)];
        if (wanted.Count == 0)
        {
            return null;
        }

        // What a person says of the gasket is not said of the lid that it lay under.
        var isBroken = Read(wanted.Aggregate(line.Text, (rest, one) => rest.Replace(one.Said, "", StringComparison.Ordinal))).Readings.Any(reading => reading.Broken);
        return line with
        {
            Readings =
            [
                .. line.Readings.Where(reading => !wanted.Exists(one => one.Reading.Deed == Deed.Wanted && IsAllOf(reading, one.Reading, one.Said)))
                    .Select(reading => reading.Broken && !isBroken && wanted.Exists(one => reading.Note?.Contains(one.Said, StringComparison.Ordinal) == true) ? reading with { Broken = false } : reading)
                    .Select(reading => WantedNames.Found(reading, wanted.Select(one => one.Reading), saysDeed)),
                // “Gasket torn, needs a new one” is wanted once.
                .. wanted.Select(one => one.Reading).Where(one => !line.Readings.Any(told => OneOfThem.IsSameWant(told, one))).DistinctBy(reading => (reading.Deed, reading.Part, reading.Of)),
            ],
        };

        // One of the bolts told before, or the thing itself; what is broken must be new already.
        string? Before(int? count) => before is { Kind: not null } && (count is not null || !before.Broken) ? RecordedThing.JointName(count is null ? before : before with { Count = count })
            : count is null or 1 && before is { Broken: false, OneTime: false } ? before.Part
            : null;

        // What broke and has to be new stands open by itself, and a fluid is drained or filled.
        bool IsElsewhere(string said) => Read(said).Readings.Any(reading =>
            reading is not { Tray: null, Fluid: null, Volume_L: null } || reading is { Broken: true, Deed: not Deed.Note } or { OneTime: true, Deed: not Deed.Note });

        static bool IsAllOf(Reading reading, Reading wanted, string said) => reading is { Deed: Deed.Note, Question: null }
            && (reading.Note is null ? reading.Broken && reading.Part == wanted.Part : reading.Part is null && reading.Note.TrimEnd('.') == said);
    }

    private bool SaysDeed(string line, WordKind? besides = null) => TermReader.Read(line, _book).Exists(term => term.Is(WordKind.Deeds, WordKind.DeedsOf, WordKind.Verbs) && !(besides is { } kind && _book.Has(term.Lower(line), kind)));

    /// <summary>Whether words only tell which of several, in whichever language: “last”, “top left”.</summary>
    internal static bool IsWhich(string words) => All.Any(reader => OneOfThem.IsWhich(words, reader._book));

    /// <summary>All of them, English first: a recording may be told in any.</summary>
    internal static IEnumerable<LineReader> All => ByLanguage.Value.Values;

    /// <summary>A reader with another word list; its shape is in docs/methods/recording.md.</summary>
    /// <exception cref="FormatException">The text is no word list; the message says where.</exception>
    public static LineReader With(string words) => new(PhraseBook.Read(words));

    /// <summary>Reads any line; nothing in it makes this throw, and nothing of it is lost.</summary>
    public RecordedLine Read(string line) => Read(line, before: null);

    private RecordedLine Read(string line, Reading? before)
    {
        ArgumentNullException.ThrowIfNull(line);
        var terms = TermReader.Read(line, _book);
        if (Noted(line) is { } note)
        {
            return new RecordedLine(line, [new Reading { Deed = Deed.Note, Note = note }], [.. terms.Select(term => new Stretch(term.Start, term.End - term.Start, term.End <= line.TrimEnd().Length - note.Length))]);
        }

        var readings = new LineBuilder(line, terms, CameOut.Says(line, _book), before, _book);
        foreach (var clause in Ordered.Whole(ClauseCutter.Cut(terms, line, _book), line, _book))
        {
            readings.Add(ClauseReader.Read(clause, line, _book));
        }

        return new RecordedLine(line, OldOnes.Renewed(readings.Finish(), line, _book), [.. terms.Select(term => new Stretch(term.Start, term.End - term.Start, term.IsUsed))]);
    }

    /// <summary>Whether the language finds nothing done because it knows the words, and not because it knows none.</summary>
    private bool KnowsForNote(string line) => Noted(line) is not null || _book.Cut(line).Exists(token => _book.Of(token.Lower, WordKind.Needs) is not null) || ClauseCutter.Cut(TermReader.Read(line, _book), line, _book).Exists(clause => Remains.IsOf(clause, line, _book) || Remains.IsThreadWork(clause, line, _book));

    // “Note: stub drilled out”: whoever begins so means no more than that, and it is kept without the word. “Note:” is all there is.
    private string? Noted(string line) => line.Split(':', 2) is [var first, var rest] && _book.Of(first.Trim().ToLowerInvariant(), WordKind.Noting) is not null
        ? rest.Trim() is { Length: > 0 } note ? note : line.Trim()
        : null;

    /// <summary>What the line says fell into the machine; null where it says no such thing, or says that it went into a tray or was drained.</summary>
    public FallenIn? FallenIn(string line) =>
        Recording.FallenIn.Read(line, _book, clause => !Read(clause).Readings.All(reading => reading is { Tray: null, Fluid: null, Volume_L: null }));

    /// <summary>The same in a language, or in English where that finds none.</summary>
    public static FallenIn? FallenIn(string line, string language) => In(language).FallenIn(line) ?? English.FallenIn(line);

    /// <summary>What the line says is out of the machine again, of what fell in; null where it says no such thing.</summary>
    /// <param name="lost">What fell in and is not found, the last first.</param>
    public static FoundAgain? FoundAgain(string line, string language, IReadOnlyList<string> lost) =>
        (Recording.FoundAgain.Read(line, In(language)._book, lost) ?? Recording.FoundAgain.Read(line, English._book, lost)) is { } found
            // How it was got out stands with it.
            ? found with { Rest = Read(found.Rest, language).Readings.All(reading => reading.Deed == Deed.Note) ? "" : found.Rest }
            : null;

    /// <summary>What sort a fluid of this name is, in whichever language; null when nothing in the name says it.</summary>
    public static SupplyKind? SortOf(string fluid) => All.Select(reader => reader.SaidSortOf(fluid)).FirstOrDefault(sort => sort is not null);

    private SupplyKind? SaidSortOf(string fluid) =>
        fluid.ToLowerInvariant().Split((char[])[' ', '-'], StringSplitOptions.RemoveEmptyEntries).Select(word => _book.Of(word, WordKind.FluidSorts)).FirstOrDefault(phrase => phrase is not null) is { } found
        && Words<SupplyKind>.TryRead(found.Value, out var sort)
            ? sort
            : null;

    /// <summary>What a hose, pipe or part of this name carries, in whichever language; null where the name says nothing of it.</summary>
    internal static Carried? Carried(string? name) => name is null ? null : All.Select(reader => Recording.Carried.By(name, reader._book)).FirstOrDefault(carried => carried is not null);

    /// <summary>Whether a name ends in the word for one fastener and not for several: “centre nut”.</summary>
    internal static bool IsOne(string name) => name.ToLowerInvariant().Split(' ')[^1] is var last && All.Select(reader => reader._book.Of(last, WordKind.Joints, WordKind.NamedJoints)).FirstOrDefault(phrase => phrase is not null) is { IsPlural: false };

    /// <summary>The name of one of several: “shear bolt” of “shear bolts”. As it stands, where no word list has the one.</summary>
    internal static string One(string name) => IsOne(name) ? name : new[] { 1, 2 }.Where(end => end < name.Length).Select(end => name[..^end]).FirstOrDefault(IsOne) ?? name;

    /// <summary>Whether a thing of this name is a spring: “return spring”, but not “spring clip”.</summary>
    internal static bool IsSpring(string name) => name.ToLowerInvariant().Split(' ', '-')[^1] is var last && All.Any(reader => reader._book.Has(last, WordKind.Springs) || reader._book.Ends(last, WordKind.Springs));

    /// <summary>Whether a thing of this name goes in new each time: “pump gasket”, “shaft seal”.</summary>
    internal static bool IsSeal(string name) => All.Any(reader => reader.SealOf(name) is not null);

    /// <summary>Whether a thing of this name holds another, as a bolt, a clip or a split pin does; a hose or a lead does not.</summary>
    internal static bool IsFastener(string name) => All.Any(reader => reader.Read(name).Readings is [{ Kind: not null and not (JointKind.Hose or JointKind.Pipe or JointKind.Connector) }]);

    /// <summary>Whether it only lies between two things and is scraped or lifted off: a gasket, an O-ring, a washer.</summary>
    internal static bool LiesBetween(string name) => All.Any(reader => reader.SealOf(name) == "between");

    private string? SealOf(string name)
    {
        var tokens = Tokenizer.Cut(name);
        return Enumerable.Range(0, tokens.Count).Select(at => _book.At(tokens, at, WordKind.Seals) is { } seal && at + seal.Words.Count == tokens.Count ? seal.Value : null).FirstOrDefault(value => value is not null)
            ?? (tokens.Count > 0 && _book.Ends(tokens[^1].Lower, WordKind.Seals) ? Enumerable.Range(0, tokens[^1].Lower.Length).Select(at => _book.Of(tokens[^1].Lower[at..], WordKind.Seals)).First(seal => seal is not null)!.Value : null);
    }

    /// <summary>Whether a line calls a thing of this name old: nobody puts it back.</summary>
    internal static bool IsCalledOld(string line, string name) => All.Any(reader =>
    {
        var (tokens, called) = (Tokenizer.Cut(line), Tokenizer.Cut(name));
        return Enumerable.Range(0, Math.Max(0, tokens.Count - called.Count)).Any(at => reader._book.Of(tokens[at].Lower, WordKind.OldOnes) is not null
            && called.Select(word => word.Lower).SequenceEqual(tokens.Skip(at + 1).Take(called.Count).Select(word => word.Lower)));
    });

    /// <summary>Whether a tool is one that breaks a joint loose and does none up: “long breaker bar”.</summary>
    internal static bool IsForLoosening(string tool) => All.Any(reader => reader.Says(tool, WordKind.Loosening));

    /// <summary>Whether a fastener of this name is turned by hand: “wing nuts”.</summary>
    internal static bool IsByHand(string name) => All.Any(reader => reader.Says(name, WordKind.ByHand));

    /// <summary>Whether it is told that heat or flame was put on it, whatever the tool was: “got it with heat”.</summary>
    internal static bool IsHeated(Reading reading) => new[] { reading.Note, $"with {reading.Tool}", $"mit {reading.Tool}" }.OfType<string>().Any(words => All.Any(reader => reader.Says(words, WordKind.Heating)));

    /// <summary>Whether the name is of what switches the current, and may come off itself: “lathe isolator”, but not “mains”.</summary>
    internal static bool IsSwitch(string name) => name.ToLowerInvariant() is var called && All.Any(reader => !reader._book.Has(called, WordKind.Supplies) && called.Split(' ') is var words
        && Enumerable.Range(0, words.Length).Any(from => reader._book.Has(string.Join(' ', words[from..]), WordKind.Switches)));

    /// <summary>Whether a line says that a fluid ran out by itself, and not that it was let out.</summary>
    internal static bool RanOut(string line) => All.Any(reader => reader.Says(line, WordKind.RanOut));

    private bool Says(string words, WordKind kind) => _book.Cut(words) is var tokens && Enumerable.Range(0, tokens.Count).Any(at => _book.At(tokens, at, kind) is not null);

    /// <summary>Whether a thing of this name covers an opening by itself, as a rag does; a cap does so only with its deed.</summary>
    internal static bool IsCover(string name) => All.Any(reader => name.ToLowerInvariant().Split(' ') is var words && reader._book.Has(string.Join(' ', words.SkipWhile(word => reader._book.Of(word, WordKind.JointModifiers) is not null)), WordKind.Covers));

    /// <summary>Whether what is in there holds something still, and covers nothing: “locking pin”, “bar”.</summary>
    public static bool IsHold(string cover) => cover.ToLowerInvariant() is var name && All.Any(reader => reader._book.Has(name, WordKind.Locks) || reader._book.Has(name.Split(' ')[^1], WordKind.Holders));

    /// <summary>Whether a word stands for things of the sort before: “short ones”.</summary>
    internal static bool IsOnes(string word) => All.Any(reader => reader._book.Has(word, WordKind.Ones));

    /// <summary>Whether a word is that for a lead, which can be tied back.</summary>
    internal static bool IsLead(string word) => All.Any(reader => reader._book.Has(word.ToLowerInvariant(), WordKind.LeadsOff));

    /// <summary>Whether it is the lead of a spark plug, without which no engine starts by itself.</summary>
    internal static bool IsOfSpark(Reading reading) => reading.Kind == JointKind.Connector && All.Any(reader => SparkLead.Is($"{reading.Part} {reading.Name}", reader._book) || reading.Name is { } name && SparkLead.Is(name, reader._book));

    /// <summary>Whether what is made safe by this name is under pressure, and no fluid that has a caution of its own: “air”, “steam valve”, “pressure”.</summary>
    /// <param name="byItsEnd">A compressor is, and its fins are not.</param>
    internal static bool IsPressed(string? name, bool byItsEnd = false) => name is not null && (Carried(name) is { Supply: null } carried && (!byItsEnd || name.EndsWith(carried.Said, StringComparison.OrdinalIgnoreCase))
        || All.Any(reader => TapReader.IsPressed(name, reader._book) || reader._book.Of(name.Split(' ')[^1].ToLowerInvariant(), WordKind.Pressures) is not null));

    /// <summary>Whether what was shut by this name is opened again by hand: “fuel tap”, “water”.</summary>
    internal static bool IsTap(string name) => All.Any(reader => TapReader.IsTap(name, reader._book));

    /// <summary>Whether it closes the way out of a fluid, and holds nothing: “drain plug”, and “14 mm plug”, which is screwed in.</summary>
    internal static bool IsDrain(Reading reading) => reading.Name is { } name
        && All.Any(reader => reader.Says(name, WordKind.Drains) || reading.Kind == JointKind.Bolt && reader._book.Has(name.ToLowerInvariant(), WordKind.ThreadedPlugs));

    /// <summary>Whether it lets a fluid out by its name, as a “drain plug” does; of a “14 mm plug” that is not known.</summary>
    internal static bool LetsOut(Reading reading) => DrainSort(reading) == "out";

    /// <summary>Whether a fluid is filled or measured by it, and not let out: “filler plug”, “level plug”.</summary>
    internal static bool IsFilledBy(Reading reading) => DrainSort(reading) == "filled";

    /// <summary>Whether it hides what is behind it, as a guard or a cover does.</summary>
    internal static bool IsShield(string name) => All.Any(reader => reader.Says(name, WordKind.Shields) || reader._book.Ends(name.ToLowerInvariant().Split(' ')[^1], WordKind.Shields));

    private static string? DrainSort(Reading reading) =>
        (from reader in All
         let tokens = reader._book.Cut(reading.Name ?? "")
         from at in Enumerable.Range(0, tokens.Count)
         select reader._book.At(tokens, at, WordKind.Drains)?.Value).FirstOrDefault(sort => sort is not null);

    /// <summary>Whether a word says that a thing is known: “the wheel”.</summary>
    internal static bool IsDetermined(string word) => All.Any(reader => reader._book.Has(word, WordKind.Determiners));

    /// <summary>The first word of a line that names a plug, which a fastener and a cover are called by.</summary>
    internal static string? PlugIn(string line) => Tokenizer.Cut(line).Select(token => token.Lower).FirstOrDefault(word => All.Any(reader => reader._book.Of(word, WordKind.ThreadedPlugs) is not null));

    /// <summary>Whether nothing in front of the last word says which one it is: “off both ports”.</summary>
    internal static bool IsUncalled(string place) => All.Any(reader => TermReader.Read(place, reader._book).SkipLast(1).All(term => term.Is(WordKind.Fillers, WordKind.Article, WordKind.Number) || reader._book.Of(term.Lower(place).Split(' ')[0], WordKind.From) is not null));

    /// <summary>Whether a word in front of a thing says that it is the old one.</summary>
    internal static bool IsOld(string word) => All.Any(reader => reader._book.Has(word.ToLowerInvariant(), WordKind.OldOnes));

    /// <summary>Whether words name no thing: “everything”, “rest”.</summary>
    internal static bool IsUnnamed(string words) => All.Any(reader => reader._book.Of(words.ToLowerInvariant(), WordKind.Unnamed) is not null);

    /// <summary>Whether a line of which nothing comes home names a fastener, a size or a number of things all the same, or that the machine was made still: whoever told it may have meant more than a note.</summary>
    public static bool IsOnlyNote(string line, IReadOnlyList<Reading> readings) =>
        readings.Count > 0 && readings.All(reading => reading.Deed == Deed.Note) && All.Any(reader => reader.NamesFasteners(line) || reader.SaysStill(line));

    private bool SaysStill(string line) => ClauseCutter.Cut(TermReader.Read(line, _book), line, _book).Exists(clause => StillReader.Read(clause, line, _book) is not null);

    private bool NamesFasteners(string line)
    {
        var terms = TermReader.Read(line, _book);
        return terms.Index().Any(at => at.Item.Is(WordKind.Joints, WordKind.NamedJoints, WordKind.Across, WordKind.Thread, WordKind.Drive)
            || at.Item.Is(WordKind.Number) && at.Index + 1 < terms.Count && terms[at.Index + 1] is { IsNameable: true } thing && _book.Of(thing.Lower(line), WordKind.Spans) is null);
    }

    /// <summary>Whether words about a set of fasteners say that they are not all of one length.</summary>
    public static bool SaysLengthsDiffer(string words)
    {
        var tokens = Tokenizer.Cut(words);
        return All.Any(reader => Enumerable.Range(0, tokens.Count).Any(at => reader._book.At(tokens, at, WordKind.LengthsDiffer) is not null));
    }

    private static string Embedded(string language)
    {
        var name = $"Lastoff.Core.Recording.words.{language}.yaml";
        using var stream = typeof(LineReader).Assembly.GetManifestResourceStream(name) ?? throw new InvalidOperationException($"{name} is not in the assembly.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
