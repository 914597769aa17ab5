using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>“Red cap off the pressure port”, “caps off both ports”: where the lines before put such a cover in there, it comes out again, and no part came off.</summary>
internal static class CoverOut
{
    // As much of a word as stays the same by its endings.
    private const int Stem = 4;

    /// <param name="before">What was told in the lines before, the last first.</param>
    /// <returns>The reading itself, where it speaks of no cover that is in.</returns>
    public static IEnumerable<Reading> Of(Reading reading, string line, IReadOnlyList<Reading> before)
    {
        if (Said(reading, line) is not var (cover, place))
        {
            // “Drum pin out”, by the very name by which it went in.
            return reading is { Deed: Deed.Off, Kind: null, Part: { } by, Note: null } && StillIn(before).FirstOrDefault(one => by.Equals(one.Cover, StringComparison.OrdinalIgnoreCase)) is { } put
                ? [new Reading { Deed = Deed.Uncovered, Part = put.Part, Cover = put.Cover }] : [reading];
        }

        List<Reading> covered = [.. StillIn(before).Where(one => IsCalled(one.Cover!, cover, isFastener: reading.Kind is not null) && (place is null || IsIn(one.Part!, place)))];
        return covered.Count == 0 || covered.Count > 1 && !CoversIn.IsPlural(cover) ? [reading] : covered.Select((one, at) => new Reading
        {
            Deed = Deed.Uncovered,
            Part = one.Part,
            // Of several that are in there, one may come out, and the others stay.
            Count = reading.Count ?? (CoversIn.IsPlural(one.Cover!) && !CoversIn.IsPlural(cover) ? 1 : null),
            Cover = CoversIn.IsPlural(one.Cover!) ? cover : one.Cover,
            Note = at > 0 ? null : place is null ? reading.Note : reading is { Kind: null, Note: { } note } && note.IndexOf(", ", StringComparison.Ordinal) is >= 0 and var end ? note[(end + 2)..] : null,
        });
    }

    /// <summary>What came off, and off or out of what, which of a rag need not be said; a plug that is screwed or pushed in is read as a fastener of it.</summary>
    private static (string Cover, string? Place)? Said(Reading reading, string line) => reading switch
    {
        { Deed: Deed.Off, Kind: null, Part: { } rag } when LineReader.IsCover(rag) => (rag, null),
        { Deed: Deed.Off, Kind: null, Part: { } cover, Note: { } off } => (cover, off.Split(", ")[0]),
        { Deed: Deed.Undone, Kind: not null, Part: { } place } => (reading.Name ?? (reading.Kind == JointKind.Connector ? LineReader.PlugIn(line) : null) ?? "", place),
        _ => null,
    };

    /// <summary>What went in, of every opening that is not empty by now.</summary>
    private static IEnumerable<Reading> StillIn(IReadOnlyList<Reading> before)
    {
        List<Reading> put = [];
        var still = new Dictionary<string, CoversIn>();
        foreach (var told in before.Reverse().Where(told => told.Part is not null))
        {
            foreach (var cover in RecordedCover.Of([told]))
            {
                still[cover.Opening] = still.GetValueOrDefault(cover.Opening, CoversIn.None).After(cover) ?? still[cover.Opening];
                put.AddRange(told is { Deed: Deed.Covered, Cover: not null } ? [told] : []);
                put.RemoveAll(one => still[RecordedCover.OpeningOf(one.Part!)].IsEmpty);
            }
        }

        return put;
    }

    /// <summary>“Cap” and “red cap” are one, and so are “blauer Stopfen” and “blauen Stopfen”; a “drain plug” is no “blue plug”.</summary>
    private static bool IsCalled(string cover, string said, bool isFastener) => Words(cover) is var own && Words(said) is { Length: > 0 } words && own[^1] == words[^1]
        && (words.Length == 1 || own.Length == 1 && !isFastener || words[..^1].All(word => own[..^1].Any(look => look.AsSpan(0, Math.Min(look.Length, Stem)).SequenceEqual(word.AsSpan(0, Math.Min(word.Length, Stem))))));

    /// <summary>“Both ports” may be the pressure port; the return port is not.</summary>
    private static bool IsIn(string opening, string place) =>
        LastOf(opening) == LastOf(place) && Words(place).TakeLast(Words(opening).Length).SequenceEqual(Words(opening)) || LastOf(opening) == LastOf(place) && LineReader.IsUncalled(place);

    private static string LastOf(string name) => Words(name)[^1];

    private static string[] Words(string name) => [.. name.ToLowerInvariant().Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(CoversIn.Single)];
}
