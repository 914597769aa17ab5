namespace Lastoff.Core.Ledger;

/// <summary>What was found at a joint, part or supply and written down there: it is to be seen again when that goes home.</summary>
public static class FoundThere
{
    /// <param name="ordered">The entries of one job, in the order in which they count.</param>
    /// <returns>Stuck joints and notes.</returns>
    public static IEnumerable<Act> Of(IReadOnlyList<Entry> ordered, string target) =>
        from counted in CountedEntry.AllOf(ordered)
        where !counted.IsTakenBack && (counted.Act is JointStuck stuck && stuck.Joint == target || counted.Act is Noted noted && noted.About == target)
        select counted.Act;
}
