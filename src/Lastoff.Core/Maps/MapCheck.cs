namespace Lastoff.Core.Maps;

/// <summary>Finds every fault of a map that can be read: a map without any compiles to operations, each of which can be done in some order.</summary>
public static class MapCheck
{
    /// <summary>The faults by line; a map that was not read from a file has the lines its items say.</summary>
    public static IReadOnlyList<MapFault> Faults(Map map)
    {
        var faults = new FaultList();
        Place(faults, "supplies", map.Supplies.Select(s => s.Line));
        Place(faults, "parts", map.Parts.Select(p => p.Line));
        Place(faults, "joints", map.Joints.Select(j => j.Line));
        Place(faults, "openings", map.Openings.Select(o => o.Line));
        Place(faults, "renewals", map.Renewals.Select(r => r.Line));
        Place(faults, "proofs", map.Proofs.Select(p => p.Line));
        Check(map, faults);
        return faults.ByLine();
    }

    internal static void Check(Map map, FaultList faults)
    {
        var names = new MapNames(map);
        IdentifierCheck.Check(map, names, faults);
        FigureCheck.Check(map, faults);
        ReferenceCheck.Check(map, names, faults);
        OrderCheck.Check(map, names, faults);
    }

    private static void Place(FaultList faults, string section, IEnumerable<int> lines)
    {
        foreach (var (i, line) in lines.Index())
        {
            faults.Place($"{section}[{i}]", line);
        }
    }
}
