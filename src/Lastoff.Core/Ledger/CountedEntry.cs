namespace Lastoff.Core.Ledger;

/// <summary>An entry, and what it counts as.</summary>
/// <param name="Act">What was done; of a line that was put right, as it says now. Null where it cannot be read.</param>
/// <param name="IsTakenBack">It does not count.</param>
public readonly record struct CountedEntry(Entry Entry, Act? Act, bool IsTakenBack)
{
    /// <param name="ordered">The entries of one job, in the order in which they count.</param>
    public static CountedEntry[] AllOf(IReadOnlyList<Entry> ordered)
    {
        var acts = new (Entry Entry, Act? Act)[ordered.Count];
        for (var i = 0; i < acts.Length; i++)
        {
            acts[i] = (ordered[i], ActKinds.Read(ordered[i], out _));
        }

        var gone = Fold.TakenBackEntries(acts);
        Dictionary<Guid, LineRecorded>? corrected = null;
        foreach (var (entry, act) in acts)
        {
            if (act is LineCorrected correction && !gone.Contains(entry.Id))
            {
                (corrected ??= [])[correction.Line] = correction.Corrected;
            }
        }

        var counted = new CountedEntry[acts.Length];
        for (var i = 0; i < acts.Length; i++)
        {
            var (entry, act) = acts[i];
            counted[i] = new CountedEntry(entry, act is LineRecorded && corrected?.GetValueOrDefault(entry.Id) is { } now ? now : act, gone.Contains(entry.Id));
        }

        return counted;
    }
}
