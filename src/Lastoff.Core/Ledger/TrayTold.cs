namespace Lastoff.Core.Ledger;

/// <summary>Which tray fasteners go into where nobody says it at the step: the one they lay in before, in this job or the last, and else the next after the one that was told last. Never one in which another set lies.</summary>
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

    /// <summary>The tray for the fasteners of a joint, "" for none; null where somebody has to say.</summary>
    /// <param name="told">The tray told last, "" for none; null while nobody said.</param>
    public static string? For(Job job, string joint, string? told)
    {
        var before = Of(job, joint) ?? job.Net.Joints[joint].Tray ?? told;
        return before is not { Length: > 0 } tray || IsFree(tray) ? before
            : Trays.Numbered.OrderBy(number => string.CompareOrdinal(number, tray) <= 0).FirstOrDefault(IsFree);

        bool IsFree(string tray) => job.Standing.InTrays.All(set => set.Tray != tray || set.Target == joint);
    }

    /// <summary>What left fasteners in the hand.</summary>
    private static IEnumerable<(Moved Moved, Entry Entry)> Undone(Job job) =>
        from row in OutAndHome.Of(job)
        let moved = row.Act as Moved
        where moved is { Move: Move.JointUndone } && job.Net.Joints.TryGetValue(moved.Target, out var joint) && Trays.TakeFrom(joint)
        select (moved, row.Out);
}
