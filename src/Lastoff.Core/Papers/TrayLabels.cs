using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Core.Papers;

/// <summary>Labels to cut out: one for each tray in use, and one for each set of fasteners and each loose end that comes off, to go into its bag or round it.</summary>
public static class TrayLabels
{
    /// <summary>A tray with more in it gets a second label.</summary>
    private const int MostOnALabel = 10;

    public static Paper Of(PaperSource source) => JobHead.Paper(
        source, PaperKind.Labels, "Labels", "For the bay",
        new Section("Trays", new Labels([.. TraysOf(source)])),
        new Section("Bags and loose ends", new Labels([.. JointsOf(source)])),
        new Section("", new Paragraph(!TraysOf(source).Any() && !JointsOf(source).Any() ? "Nothing lies in a tray or hangs loose: there is nothing to label."
            : source is { Origin: not null, Modules: not null }
            ? "Cut along the lines. A code opens its tray or joint on a phone that belongs to the workshop."
            : "Cut along the lines. The server's address is not known here, so the labels bear no codes.")));

    private static IEnumerable<Label> TraysOf(PaperSource source) =>
        from tray in source.Standing.InTrays.GroupBy(set => set.Tray)
        from sets in tray.Chunk(MostOnALabel)
        select new Label(
            NamesOf.Capital(Trays.Called(tray.Key)),
            [
                .. sets.Select(set => new Said(
                    $"{(set.Count is { } count ? $"{count} × " : "")}{NamesOf.Thing(source.Standing.Net, set.Target)}{Thread(source.Standing, set.Target)}{(set.IsLeftOver ? ", left over" : "")}",
                    set.Count is { } counted ? [Datum.Of("joint", set.Target), Datum.Of("count", (decimal)counted)] : [Datum.Of("joint", set.Target)])),
            ],
            Code(source, "tray", tray.Key));

    /// <summary>The joints that are undone now, in the order in which they were, then those the plan still undoes.</summary>
    private static IEnumerable<Label> JointsOf(PaperSource source)
    {
        var standing = source.Standing;
        var undone = OutAndHome.Of(source.Job).Where(row => row.Home is null).Select(row => row.Act).OfType<Moved>().Where(moved => moved.Move == Move.JointUndone).Select(moved => moved.Target);
        var ahead = source.Plan?.Out.Where(step => step.Kind == StepKind.Undo).Select(step => step.Target) ?? [];
        var inTrays = standing.InTrays.Select(set => set.Target).ToHashSet();
        return from id in undone.Concat(ahead).Distinct()
               where standing.Net.Joints.ContainsKey(id) && !inTrays.Contains(id)
               let joint = standing.Net.Joints[id]
               where Trays.TakeFrom(joint) || joint.Kind is JointKind.Connector or JointKind.Hose or JointKind.Pipe
               select new Label(NamesOf.Capital(joint.Name), [.. Lines(standing, joint)], Code(source, "joint", id));
    }

    private static IEnumerable<Said> Lines(Standing standing, Joint joint)
    {
        if (joint.Count > 1 || Trays.TakeFrom(joint))
        {
            yield return new($"{joint.Count} × {Words<JointKind>.Of(joint.Kind)}{Thread(standing, joint.Id)}", Datum.Of("joint", joint.Id), Datum.Of("count", (decimal)joint.Count));
        }

        if (joint.Holds.Count > 0)
        {
            yield return $"Holds: {string.Join(", ", joint.Holds.Select(part => NamesOf.Thing(standing.Net, part)))}";
        }

        if (joint.OneTime)
        {
            yield return "New ones on the way back";
        }
    }

    private static string Thread(Standing standing, string joint) => standing.Net.Joints.TryGetValue(joint, out var found) && found.Thread is { } thread ? $", {thread}" : "";

    private static QrCode? Code(PaperSource source, string what, string name)
    {
        if (source is not { Origin: { } origin, Modules: { } modules, JobId: { } job })
        {
            return null;
        }

        var link = $"{origin.TrimEnd('/')}/job/{job}?tab=account&{what}={Uri.EscapeDataString(name)}";
        return new QrCode(link, modules(link));
    }
}
