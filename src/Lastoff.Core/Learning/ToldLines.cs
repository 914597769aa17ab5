using Lastoff.Core.Ledger;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>The lines that tell more of a thing than a map has a place for: a mark, a knack, what it came off, how it gave trouble.</summary>
internal static class ToldLines
{
    /// <param name="things">Everything that came off in it, in order, with the name it has in the strip.</param>
    /// <returns>The lines as they were said, by the name of the thing.</returns>
    public static ILookup<string, string> Of(IReadOnlyList<Entry> ordered, IReadOnlyList<(ToldMove Move, string Name)> things) =>
        (from counted in CountedEntry.AllOf(ordered)
         where counted is { Act: LineRecorded, IsTakenBack: false }
         let line = (LineRecorded)counted.Act!
         from name in Of(counted.Entry, line, things)
         select (Name: name, line.Text)).Distinct().ToLookup(told => told.Name, told => told.Text);

    private static IEnumerable<string> Of(Entry entry, LineRecorded line, IReadOnlyList<(ToldMove Move, string Name)> things)
    {
        var moved = things.Where(thing => thing.Move.Entry.Id == entry.Id).Select(thing => thing.Name).ToList();
        return moved.Count > 0 ? line.Readings.Any(reading => reading.Note is not null) ? moved : []
            : line.Readings.Where(IsOfOneOfThem).Select(reading => Among(reading, things, entry)).OfType<string>();
    }

    /// <summary>“One of them snapped”, some lines after the set came off.</summary>
    private static bool IsOfOneOfThem(Reading reading) =>
        reading.Deed == Deed.Wanted || reading is { Deed: Deed.Note } and ({ Broken: true } or { Seized: true });

    /// <summary>The joint of that name that was told of before, or, of what is not named, the last.</summary>
    private static string? Among(Reading reading, IReadOnlyList<(ToldMove Move, string Name)> things, Entry entry)
    {
        var before = things.Where(thing => thing.Move.Moved.Move == Move.JointUndone && thing.Move.Entry.Id.CompareTo(entry.Id) < 0).Select(thing => thing.Name);
        return (reading.Kind is null ? reading.Part ?? reading.Name : RecordedThing.JointName(reading)) is { } called
            ? before.LastOrDefault(name => RecordedWants.IsCalled(name, called))
            : before.LastOrDefault();
    }
}
