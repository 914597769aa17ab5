namespace Lastoff.Core.Ledger;

/// <summary>Which tray fasteners go into where nobody says it at the step: the one that was told last, and once somebody went back in, the one they lay in the first time.</summary>
public static class TrayTold
{
    /// <summary>The tray told last since somebody went back in, "" for none; null while nobody said.</summary>
    public static string? Last(Job job)
    {
        var back = BackIn(job);
        return Undone(job).LastOrDefault(undone => undone.Moved.Despite is null && (back is not { } since || undone.Entry.Id.CompareTo(since) > 0)) is { Moved: { } moved } ? moved.Tray ?? "" : null;
    }

    /// <summary>The entry by which somebody went back in last; null where nobody did.</summary>
    public static Guid? BackIn(Job job) => CountedEntry.AllOf(job.Entries).LastOrDefault(counted => counted is { Act: Ledger.BackIn, IsTakenBack: false }).Entry?.Id;

    /// <summary>Where the fasteners of a joint were put when it last came undone, "" for nowhere; null where it never did.</summary>
    public static string? Of(Job job, string joint) => Undone(job).LastOrDefault(undone => undone.Moved.Target == joint) is { Moved: { } moved } ? moved.Tray ?? "" : null;

    /// <summary>What left fasteners in the hand.</summary>
    private static IEnumerable<(Moved Moved, Entry Entry)> Undone(Job job) =>
        from row in OutAndHome.Of(job)
        let moved = row.Act as Moved
        where moved is { Move: Move.JointUndone } && job.Net.Joints.TryGetValue(moved.Target, out var joint) && Trays.TakeFrom(joint)
        select (moved, row.Out);
}
