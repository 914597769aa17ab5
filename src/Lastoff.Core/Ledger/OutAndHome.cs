using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Ledger;

/// <summary>One thing that left its place and whether it came home: a joint, a part, a supply, or a cover that went into an opening.</summary>
/// <param name="Act">What was done when it left.</param>
/// <param name="Home">The entry that brought it back; null while it is out.</param>
public sealed record OutAndHomeRow(Act Act, Entry Out, Entry? Home);

/// <summary>The two-sided account of a strip: everything that left, in the order in which it left, against its coming home.</summary>
public static class OutAndHome
{
    public static IReadOnlyList<OutAndHomeRow> Of(Job job)
    {
        var rows = new List<OutAndHomeRow>();
        var away = new Dictionary<(OperationKind?, string), int>();
        var covers = new Dictionary<string, CoversIn>();
        foreach (var (entry, act, _) in CountedEntry.AllOf(job.Entries).Where(a => !a.IsTakenBack))
        {
            foreach (var moved in Moves(job, entry, act, covers))
            {
                if (Thing(job, moved) is not var (thing, isHome))
                {
                    continue;
                }

                if (!isHome && away.TryAdd(thing, rows.Count))
                {
                    rows.Add(new OutAndHomeRow(moved, entry, null));
                }
                else if (!isHome && moved is Moved { Move: Move.SupplySafe, Amount_L: { } litres } && rows[away[thing]] is { Act: Moved { Amount_L: null } drained } unmeasured)
                {
                    // How much came out was told some lines later.
                    rows[away[thing]] = unmeasured with { Act = drained with { Amount_L = litres } };
                }
                else if (isHome && away.Remove(thing, out var row))
                {
                    rows[row] = rows[row] with { Home = entry };
                }
            }
        }

        return rows;
    }

    /// <summary>A recorded line may move several things.</summary>
    private static IEnumerable<Act> Moves(Job job, Entry entry, Act? act, Dictionary<string, CoversIn> covers) => act switch
    {
        null => [],
        LineRecorded line => job.IsRecorded ? [.. RecordedThing.Of(entry.Id, line).Select(thing => thing.Moved), .. Covers(line, covers)] : [],
        OpeningCovered covered => [Tapped(covered.Opening, covered, covers)],
        OpeningUncovered uncovered => [Tapped(uncovered.Opening, uncovered, covers)],
        _ => [act],
    };

    /// <summary>A cover is home when all of it is out.</summary>
    private static IEnumerable<Act> Covers(LineRecorded line, Dictionary<string, CoversIn> covers)
    {
        foreach (var cover in RecordedCover.Of(line))
        {
            if (covers.GetValueOrDefault(cover.Opening, CoversIn.None).After(cover) is not { } now)
            {
                continue;
            }

            covers[cover.Opening] = now;
            if (cover.Act is OpeningCovered || now.IsEmpty)
            {
                yield return cover.Act;
            }
        }
    }

    private static Act Tapped(string opening, Act act, Dictionary<string, CoversIn> covers)
    {
        covers[opening] = covers.GetValueOrDefault(opening, CoversIn.None).After(act);
        return act;
    }

    /// <summary>What leaves or comes home by this act; null when nothing does.</summary>
    private static ((OperationKind?, string) Thing, bool IsHome)? Thing(Job job, Act act) => act switch
    {
        Moved moved when job.Net.TryFind(moved.Move.Operation(), moved.Target, out _) =>
            ((moved.Move.Operation(), moved.Target), moved.Move.IsBack()),
        OpeningCovered covered when job.Net.Openings.ContainsKey(covered.Opening) => ((null, covered.Opening), false),
        OpeningUncovered uncovered when job.Net.Openings.ContainsKey(uncovered.Opening) => ((null, uncovered.Opening), true),
        _ => null,
    };
}
