namespace Lastoff.Core.Maps;

/// <summary>Turns the parts, joints and supplies of a map into operations with their ways.</summary>
internal sealed class OperationBuilder(Map map, IReadOnlyDictionary<(OperationKind, string), int> index)
{
    private readonly Dictionary<string, Part> _parts = map.Parts.ToDictionary(p => p.Id);

    public Operation[] Build()
    {
        var operations = new Operation[index.Count];
        foreach (var supply in map.Supplies)
        {
            Put(operations, OperationKind.MakeSafe, supply.Id, supply.Name, supply.SafeMinutes, supply.RestoreMinutes,
                Ways(supply.Needs.Select(Safe), supply.Reach, supply.Tool, supply.At));
        }

        foreach (var joint in map.Joints)
        {
            Put(operations, OperationKind.Undo, joint.Id, joint.Name, joint.UndoMinutes, joint.MakeMinutes,
                Ways(joint.Needs.Select(Safe), joint.Reach, joint.Tool, joint.At, joint.Risk));
        }

        foreach (var part in map.Parts)
        {
            var holding = map.Joints.Where(j => j.Holds.Contains(part.Id)).Select(j => j.Id).ToList();
            Put(operations, OperationKind.Off, part.Id, part.Name, part.OffMinutes, part.OnMinutes,
                Ways(holding.Select(Undone).Concat(part.Needs.Select(Safe)), part.Reach, part.Tool, part.At));
            if (part.Aside is { } aside)
            {
                Put(operations, OperationKind.Aside, part.Id, part.Name, aside.AsideMinutes, aside.HomeMinutes,
                    Ways(holding.Except(aside.Leaves).Select(Undone).Concat(part.Needs.Select(Safe)), part.Reach, part.Tool, part.At));
            }
        }

        return operations;
    }

    private void Put(Operation[] operations, OperationKind kind, string target, string name, double outMinutes, double backMinutes, IReadOnlyList<Way> ways)
    {
        var at = index[(kind, target)];
        operations[at] = new Operation(at, kind, target, name, outMinutes, backMinutes, ways);
    }

    private IReadOnlyList<Way> Ways(IEnumerable<OperationSet> first, Reach reach, Tool tool, Position at, Risk? risk = null)
    {
        List<OperationSet> before = [.. first];
        List<Clearance> clear = [.. Clearances(reach.Clear, reach.Off)];
        return reach.Either.Count == 0
            ? [new Way(before, clear, 1, tool, at, risk, null)]
            : [.. reach.Either.Select(either => new Way(
                before,
                [.. clear, .. Clearances(either.Clear, either.Off)],
                either.Times, either.With ?? tool, either.At ?? at, either.Risk ?? risk, either))];
    }

    private IEnumerable<Clearance> Clearances(IEnumerable<string> clear, IEnumerable<string> off) =>
        clear.Select(p => new Clearance(p, OutOfTheWay(p))).Concat(off.Select(p => new Clearance(p, Off(p))));

    private OperationSet Safe(string supply) => Single(OperationKind.MakeSafe, supply);

    private OperationSet Undone(string joint) => Single(OperationKind.Undo, joint);

    private OperationSet Off(string part) => Single(OperationKind.Off, part);

    private OperationSet Single(OperationKind kind, string target) => OperationSet.Of(index.Count, [index[(kind, target)]]);

    /// <summary>A part is out of the way when it is off, aside, or gone with the part it rides on.</summary>
    private OperationSet OutOfTheWay(string id)
    {
        var clears = new List<int>();
        var seen = new HashSet<string>();
        for (var part = _parts[id]; seen.Add(part.Id);)
        {
            clears.Add(index[(OperationKind.Off, part.Id)]);
            if (part.Aside is not null)
            {
                clears.Add(index[(OperationKind.Aside, part.Id)]);
            }

            if (part.RidesOn is null)
            {
                break;
            }

            part = _parts[part.RidesOn];
        }

        return OperationSet.Of(index.Count, clears);
    }
}
