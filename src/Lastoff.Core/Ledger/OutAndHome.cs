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
        var acts = job.Entries.Select(e => (Entry: e, Act: ActKinds.Read(e, out _))).ToList();
        var gone = Fold.TakenBackEntries(acts);
        var rows = new List<OutAndHomeRow>();
        foreach (var (entry, act) in acts)
        {
            if (gone.Contains(entry.Id) || Key(job, act) is not var (key, isHome))
            {
                continue;
            }

            var open = rows.FindIndex(row => row.Home is null && Key(job, row.Act)?.What == key);
            if (isHome && open >= 0)
            {
                rows[open] = rows[open] with { Home = entry };
            }
            else if (!isHome && open < 0)
            {
                rows.Add(new OutAndHomeRow(act!, entry, null));
            }
        }

        return rows;
    }

    /// <summary>What leaves or comes home by this act; null when nothing does.</summary>
    private static (string What, bool IsHome)? Key(Job job, Act? act) => act switch
    {
        Moved moved when job.Net.TryFind(moved.Move.Operation(), moved.Target, out var operation) => ($"operation {operation}", moved.Move.IsBack()),
        OpeningCovered covered when job.Net.Openings.ContainsKey(covered.Opening) => ($"cover {covered.Opening}", false),
        OpeningUncovered uncovered when job.Net.Openings.ContainsKey(uncovered.Opening) => ($"cover {uncovered.Opening}", true),
        _ => null,
    };
}
