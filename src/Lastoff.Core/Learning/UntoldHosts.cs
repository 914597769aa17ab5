using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>Which part a hose, pipe or lead is on that was told of with none that came off: the first after it that others of the sort were told to be on, or that was left open. A clamp is where its hose is.</summary>
/// <remarks>Without one nothing is known but that it came off first, and that is for the strips to say.</remarks>
internal sealed class UntoldHosts(IReadOnlyList<RecordedStrip> strips, ILookup<string, string> told)
{
    private readonly List<Removal> _all = [.. strips.SelectMany(strip => strip.Strip.Removals)];

    /// <param name="told">The parts that came off, by the joints that lines gave them.</param>
    public static IEnumerable<(string Joint, string Part)> Of(IReadOnlyList<RecordedStrip> strips, ILookup<string, string> told)
    {
        var hosts = new UntoldHosts(strips, told);
        return from joint in hosts._all.Where(removal => removal.Kind == OperationKind.Undo).Select(removal => removal.Name).Distinct()
               where !told.Contains(joint)
               let host = hosts.HostOf(hosts.LineOf(joint) ?? joint, joint)
               where host is not null
               select (joint, host);
    }

    /// <param name="line">What the joint is, or what it clamps.</param>
    private string? HostOf(string line, string joint) => KindOf(line) is not { } kind || !IsLine(kind) ? null
        : told[line].Concat(PartsWith(kind)).FirstOrDefault(part => strips.All(strip => IsBefore(strip, joint, part)) && strips.Any(strip => PlaceOf(strip, joint) >= 0 && PlaceOf(strip, part) >= 0));

    /// <summary>The parts that something of the sort is on, in the order in which they came off.</summary>
    private IEnumerable<string> PartsWith(JointKind kind) =>
        from part in _all.Where(removal => removal.Kind is OperationKind.Off or OperationKind.Aside).Select(removal => removal.Name).Distinct()
        where told.Any(joint => joint.Contains(part) && KindOf(joint.Key) is { } other && IsLine(other) && (other == JointKind.Connector) == (kind == JointKind.Connector))
            || kind != JointKind.Connector && strips.Any(strip => strip.Strip.Openings.Any(opening => opening.Name.StartsWith($"{part} ", StringComparison.OrdinalIgnoreCase)))
        select part;

    /// <summary>What a clamp is on: the hose that its line names, or else the one told beside it. Null for what clamps none.</summary>
    private string? LineOf(string joint)
    {
        var of = strips.SelectMany(strip => strip.Belongs).Where(pair => pair.Joint == joint).Select(pair => pair.Part).FirstOrDefault();
        return of is not null && KindOf(of) is { } kind && IsLine(kind) ? of
            : KindOf(joint) == JointKind.Clamp || KindOf(joint) == JointKind.Clip && of is not null && LineReader.All.Any(reader => reader.Read(of).Readings is [{ Kind: JointKind.Hose or JointKind.Pipe }]) ? Beside(joint)
            : null;
    }

    private string? Beside(string joint) =>
        (from strip in strips
         let at = PlaceOf(strip, joint)
         where at >= 0
         from next in new[] { at + 1, at - 1 }
         let removal = strip.Strip.Removals.ElementAtOrDefault(next)
         where removal is { Kind: OperationKind.Undo, Joint: JointKind.Hose or JointKind.Pipe }
         select removal.Name).FirstOrDefault();

    private JointKind? KindOf(string joint) => _all.Find(removal => removal.Kind == OperationKind.Undo && removal.Name == joint)?.Joint;

    private static bool IsLine(JointKind kind) => kind is JointKind.Connector or JointKind.Hose or JointKind.Pipe;

    private static bool IsBefore(RecordedStrip strip, string joint, string part) => (PlaceOf(strip, joint), PlaceOf(strip, part)) is var (first, then) && (first < 0 || then < 0 || first < then);

    private static int PlaceOf(RecordedStrip strip, string name) => strip.Strip.Removals.Index().FirstOrDefault(one => one.Item.Name == name, (-1, null!)).Index;
}
