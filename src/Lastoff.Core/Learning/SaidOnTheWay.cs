using Lastoff.Core.Ledger;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>What the lines of a recording say was, or was not, in the way: “hose in the way of the bracket”.</summary>
/// <param name="things">Everything that came off in it, in order, with the name it has in the strip.</param>
internal sealed class SaidOnTheWay(IReadOnlyList<Entry> ordered, IReadOnlyList<(ToldMove Move, string Name)> things)
{
    /// <summary>What a map can say of it. A word about a thing that is not on record, or that the recording itself shows to be otherwise, says nothing.</summary>
    public IReadOnlyList<Said> Said() =>
    [
        .. from told in CountedEntry.AllOf(ordered).Index()
           where told.Item is { Act: LineRecorded, IsTakenBack: false }
           from reading in ((LineRecorded)told.Item.Act!).Readings
           where reading.Deed is Deed.InTheWay or Deed.NotInTheWay
           from said in Said(reading, told.Index)
           select said,
    ];

    private IEnumerable<Said> Said(Reading reading, int at)
    {
        if (Find(reading.Part ?? "", at) is not { } first)
        {
            return [];
        }

        var isInTheWay = reading.Deed == Deed.InTheWay;
        List<int> of = reading.Of is { } name ? [.. new[] { Find(name, at) }.OfType<int>()]
            // In the way of what came next; not in the way of anything that came after it. Laid aside and then off, it is one thing.
            : [.. Enumerable.Range(first + 1, things.Count - first - 1).Where(then => things[then].Name != things[first].Name).Take(isInTheWay ? 1 : int.MaxValue)];
        return from then in of
               where !(isInTheWay && then < first)
               // Not in the way of a part is not in the way of its bolts, either.
               from held in isInTheWay ? HeldUp(first, then) : HeldUp(first, then).Concat(JointsOf(then)).Distinct()
               where things[first].Name != things[held].Name && (isInTheWay || things[first].Move.Part != things[held].Name)
               select new Said(things[first].Name, things[held].Name, isInTheWay);
    }

    /// <summary>Where a map cannot say that the one holds up the other, what stands for it: of two joints the part of the second, of a supply and a part the joints of the part.</summary>
    private IEnumerable<int> HeldUp(int first, int then)
    {
        var (one, other) = (things[first].Move.Moved.Move, things[then].Move.Moved.Move);
        return (one, other) switch
        {
            (Move.JointUndone, Move.JointUndone) => Named(things[then].Move.Part),
            (Move.SupplySafe, Move.PartOff or Move.PartAside) => JointsOf(then),
            (Move.JointUndone, Move.SupplySafe) => [],
            _ => [then],
        };
    }

    private IEnumerable<int> JointsOf(int part) => Enumerable.Range(0, things.Count).Where(i => things[part].Move.Moved.Move is Move.PartOff or Move.PartAside && things[i].Move.Part == things[part].Name);

    private IEnumerable<int> Named(string? part) => Enumerable.Range(0, things.Count).Where(i => things[i].Move.Moved.Move is Move.PartOff or Move.PartAside && things[i].Name == part);

    /// <summary>The thing that is meant: called so, or else by a name that has all these words; of several the one told of nearest to the line.</summary>
    private int? Find(string name, int at)
    {
        var best = Enumerable.Range(0, things.Count)
            .Select(i => (Thing: i, Fit: things[i].Move.Reading is { } reading ? new RecordedThing(things[i].Move.Moved, reading).Fits(name, things[i].Name) : 0, Away: Math.Abs(PlaceOf(things[i].Move.Entry) - at)))
            .Where(found => found.Fit > 0).OrderByDescending(found => found.Fit).ThenBy(found => found.Away).ToList();
        return best.Count == 0 ? null : best[0].Thing;
    }

    private int PlaceOf(Entry entry) => ordered.Index().First(one => one.Item.Id == entry.Id).Index;
}
