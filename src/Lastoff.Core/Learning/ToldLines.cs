using Lastoff.Core.Ledger;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>A line that tells more of a thing than a map has a place for: a mark, a knack, what it came off, how it gave trouble.</summary>
/// <param name="Name">The thing, by the name it has in the strip.</param>
/// <param name="Text">As it was said.</param>
/// <param name="Trouble">What went wrong with one of a set, by what the line says of it; null when nothing did.</param>
/// <param name="Besides">How many that broke were told of before the set came out: it has as many more.</param>
internal sealed record ToldLine(string Name, string Text, TroubleKind? Trouble = null, int Besides = 0);

internal static class ToldLines
{
    /// <param name="things">Everything that came off in it, in order, with the name it has in the strip.</param>
    public static ILookup<string, ToldLine> Of(IReadOnlyList<Entry> ordered, IReadOnlyList<(ToldMove Move, string Name)> things) =>
        (from counted in CountedEntry.AllOf(ordered)
         where counted is { Act: LineRecorded, IsTakenBack: false }
         from told in Of(counted.Entry, (LineRecorded)counted.Act!, things)
         select told).Distinct().ToLookup(told => told.Name);

    private static IEnumerable<ToldLine> Of(Entry entry, LineRecorded line, IReadOnlyList<(ToldMove Move, string Name)> things)
    {
        var moved = things.Where(thing => thing.Move.Entry.Id == entry.Id).ToList();
        var noted = line.Readings.Any(reading => reading.Note is not null) ? moved.Where(thing => !IsMeasured(thing.Move)).Select(thing => new ToldLine(thing.Name, line.Text)) : [];
        return noted
            .Concat(from thing in moved where IsMeasured(thing.Move) && thing.Move.Reading!.Note is not null select new ToldLine(thing.Name, thing.Move.Reading!.Note!))
            .Concat(from reading in line.Readings
                    where IsOfOneOfThem(reading) && (moved.Count == 0 || IsNamed(reading))
                    let before = Among(reading, things.Where(thing => thing.Move.Entry.Id.CompareTo(entry.Id) <= 0))
                    let after = before is null && reading.Broken && IsNamed(reading) ? Among(reading, things.Reverse()) : null
                    where (before ?? after) is not null
                    select new ToldLine((before ?? after)!, line.Text, TroubleOf(reading), after is null ? 0 : reading.Count ?? 1));
    }

    /// <summary>How much of a fluid there is the map says itself: the line would say another figure beside it.</summary>
    private static bool IsMeasured(ToldMove move) => move is { Moved.Move: Move.SupplySafe, Reading.Volume_L: not null };

    /// <summary>“One of them snapped”, some lines after the set came off or in the same.</summary>
    private static bool IsOfOneOfThem(Reading reading) =>
        reading.Deed == Deed.Wanted || reading is { Deed: Deed.Note } and ({ Broken: true } or { Seized: true });

    private static bool IsNamed(Reading reading) => reading.Kind is not null || reading.Part is not null;

    private static TroubleKind? TroubleOf(Reading reading) =>
        !IsNamed(reading) ? null
        : reading.Broken ? TroubleKind.Broke
        : reading.Seized ? TroubleKind.Seized
        : null;

    /// <summary>The last joint of that name, or, of what is not named, the last of all.</summary>
    private static string? Among(Reading reading, IEnumerable<(ToldMove Move, string Name)> things)
    {
        var joints = things.Where(thing => thing.Move.Moved.Move == Move.JointUndone).Select(thing => thing.Name);
        return (reading.Kind is null ? reading.Part ?? reading.Name : RecordedThing.JointName(reading)) is not { } called ? joints.LastOrDefault()
            // “Pump is shot” says nothing of its bolts.
            : things.Any(thing => thing.Move.Moved.Move != Move.JointUndone && RecordedThing.Plain(thing.Name) == RecordedThing.Plain(called)) ? null
            : joints.LastOrDefault(name => RecordedWants.IsCalled(name, called));
    }
}
