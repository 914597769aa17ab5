using Lastoff.Core.Ledger;

namespace Lastoff.Core.Recording;

/// <summary>“Forgot: belt off before that”, and then “belt was in the way of the cover”: the belt came off first, whenever it was told of.</summary>
internal sealed class ToldLate
{
    private sealed record Thing(CountedEntry Line, RecordedThing What);

    private readonly List<CountedEntry> _acts;

    private ToldLate(IEnumerable<CountedEntry> acts) => _acts = [.. acts];

    /// <summary>The entries of a job without a map that count, in the order in which it all came off by what was said. Of two words the later counts.</summary>
    /// <param name="ordered">In the order in which they were recorded.</param>
    public static IReadOnlyList<CountedEntry> InOrder(IReadOnlyList<Entry> ordered)
    {
        List<CountedEntry> counted = [.. CountedEntry.AllOf(ordered).Where(one => !one.IsTakenBack)];
        List<(CountedEntry Line, Reading Reading)> words =
            [.. counted.Where(one => one.Act is LineRecorded).SelectMany(one => ((LineRecorded)one.Act!).Readings.Where(reading => reading is { Deed: Deed.InTheWay or Deed.NotInTheWay, Part: not null, Of: not null }).Select(reading => (one, reading)))];
        if (words.Count == 0)
        {
            return counted;
        }

        var late = new ToldLate(counted);
        foreach (var (line, reading) in words.Where(word => word.Reading.Deed == Deed.InTheWay && !words.Any(other => IsTakenBack(word, other))))
        {
            late.Heed(reading.Part!, reading.Of!, line.Entry.Id);
        }

        return late._acts;

        // Said of the same two and later, that it was not.
        static bool IsTakenBack((CountedEntry Line, Reading Reading) word, (CountedEntry Line, Reading Reading) other) => other.Reading.Deed == Deed.NotInTheWay && other.Line.Entry.Id.CompareTo(word.Line.Entry.Id) > 0
            && RecordedThing.Plain(other.Reading.Part!) == RecordedThing.Plain(word.Reading.Part!) && RecordedThing.Plain(other.Reading.Of!) == RecordedThing.Plain(word.Reading.Of!);
    }

    private void Heed(string what, string of, Guid word)
    {
        List<Thing> told =
        [
            .. from act in _acts
               where act.Act is LineRecorded && act.Entry.Id.CompareTo(word) < 0
               from thing in RecordedThing.Of(act.Entry.Id, (LineRecorded)act.Act!)
               select new Thing(act, thing),
        ];
        if (Find(told, what) is not { } late || Find(told, of) is not { } held || late.Line.Entry.Id == held.Line.Entry.Id)
        {
            return;
        }

        var (from, to) = (_acts.IndexOf(late.Line), _acts.IndexOf(held.Line));
        // What has gone home since was not told late, or it is too late to say so.
        if (to > from || _acts.Any(act => act.Entry.Id.CompareTo(word) < 0 && act.Act is Moved moved && moved.Move.IsBack() && (moved.Target == late.What.Moved.Target || moved.Target == held.What.Moved.Target)))
        {
            return;
        }

        // With the joints told just before it, of which nobody said what they hold.
        var first = from;
        while (first - 1 > to && _acts[first - 1] is { Act: LineRecorded line } own && own.Entry.Device == late.Line.Entry.Device && IsOnItsWay(own.Entry.Id, line, late.What))
        {
            first--;
        }

        var moved = _acts.GetRange(first, from - first + 1);
        _acts.RemoveRange(first, moved.Count);
        _acts.InsertRange(to, moved);
    }

    private static bool IsOnItsWay(Guid entry, LineRecorded line, RecordedThing part) =>
        part.Moved.Move is Move.PartOff or Move.PartAside && RecordedThing.Of(entry, line) is { Count: > 0 } things
        && things.All(thing => thing.Moved.Move == Move.JointUndone && (thing.JointOf ?? part.Moved.Target) == part.Moved.Target);

    /// <summary>What is called so, or else by a name that has all these words; of several what was told last.</summary>
    private static Thing? Find(IReadOnlyList<Thing> told, string name) => told.Select(thing => (Thing: thing, Fit: thing.What.Fits(name))).Where(one => one.Fit > 0)
        .OrderByDescending(one => one.Fit).ThenByDescending(one => one.Thing.Line.Entry.Id).Select(one => one.Thing).FirstOrDefault();
}
