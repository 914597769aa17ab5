using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>What was found at joints that would not come undone, and what it says about each way of undoing them.</summary>
public static class Stuck
{
    // As for the minutes of a map: whatever takes longer is a slip.
    public const double MostMinutes = 10_000;

    /// <summary>The last word about one way of undoing a joint; null when nothing was found there.</summary>
    public static JointStuck? About(IEnumerable<JointStuck> found, Operation operation, Way way) => operation.Kind == OperationKind.Undo
        ? found.LastOrDefault(stuck => stuck.Joint == operation.Target && Concerns(stuck, way))
        : null;

    /// <summary>What was found, as a sentence without its full stop.</summary>
    public static string Words(OperationNet net, JointStuck stuck)
    {
        if (stuck.Broke)
        {
            return $"“{net.Joints[stuck.Joint].Name}” broke"
                + (stuck.IsClosed ? " and cannot be undone" : stuck.ExtraMinutes > 0 ? FormattableString.Invariant($", {stuck.ExtraMinutes:0.#} min more") : "")
                + Text(stuck);
        }

        var way = stuck.With is null ? "" : $" {Place(stuck.At)} with {stuck.With}";
        return $"“{net.Joints[stuck.Joint].Name}” "
            + (stuck.IsClosed ? $"cannot be undone{way}" : FormattableString.Invariant($"is stuck{way}, {stuck.ExtraMinutes:0.#} min more"))
            + Text(stuck);
    }

    /// <summary>The same of a joint that came undone in the end, by whichever way.</summary>
    public static string WasWords(OperationNet net, JointStuck stuck) => stuck.Broke ? Words(net, stuck with { IsClosed = false })
        : $"“{net.Joints[stuck.Joint].Name}” was stuck{(stuck.ExtraMinutes > 0 ? FormattableString.Invariant($", {stuck.ExtraMinutes:0.#} min more") : "")}{Text(stuck)}";

    private static string Text(JointStuck stuck) => stuck.Text.Length > 0 ? $" ({stuck.Text})" : "";

    /// <summary>What later findings at the same joint leave standing: one about the joint as a whole is the last word on all its ways.</summary>
    internal static void Add(List<JointStuck> found, JointStuck stuck)
    {
        found.RemoveAll(earlier => earlier.Joint == stuck.Joint && (stuck.With is null || (earlier.With, earlier.At) == (stuck.With, stuck.At)));
        found.Add(stuck);
    }

    internal static Refusal? Check(Standing standing, JointStuck stuck)
    {
        if (!standing.Net.Joints.TryGetValue(stuck.Joint, out var joint))
        {
            return Guards.Unknown("joint", stuck.Joint);
        }

        return !(stuck.ExtraMinutes >= 0 && stuck.ExtraMinutes <= MostMinutes) ? new Refusal(RefusalKind.Forbidden, $"“{joint.Name}”: the minutes more must lie between 0 and a week.")
            : !stuck.IsClosed && !stuck.Broke && stuck.ExtraMinutes == 0 ? new Refusal(RefusalKind.Forbidden, $"Write down how many minutes more “{joint.Name}” takes, or that it cannot be undone.")
            : standing.IsDone(OperationKind.Undo, stuck.Joint) ? new Refusal(RefusalKind.Already, $"“{joint.Name}” is undone: it is not stuck any more.")
            : null;
    }

    private static bool Concerns(JointStuck stuck, Way way) => stuck.With is null || (stuck.With == way.Tool.ToString() && stuck.At == way.At);

    private static string Place(Position? at) => at switch
    {
        Position.Above => "from above",
        Position.Below => "from below",
        Position.Front => "at the front",
        Position.Rear => "at the rear",
        Position.Left => "on the left",
        Position.Right => "on the right",
        _ => "",
    };
}
