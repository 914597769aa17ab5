namespace Lastoff.Core.Maps;

/// <summary>Finds every fault of a map that can be read: a map without any compiles to operations, each of which can be done in some order.</summary>
public static class MapCheck
{
    // Far above any machine described area by area, and low enough for a phone to hold what each operation needs.
    private const int MostOperations = 5_000;

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
        FluidCheck.Check(map, faults);
        ReferenceCheck.Check(map, names, faults);
        var operations = map.Supplies.Count + map.Joints.Count + map.Parts.Count + map.Parts.Count(p => p.Aside is not null);
        if (operations <= MostOperations)
        {
            OrderCheck.Check(map, names, faults);
        }
        else
        {
            faults.Add("parts", $"The map has {operations} operations and may have {MostOperations}; describe one area of the machine per map.");
        }
    }

    private static void Place(FaultList faults, string section, IEnumerable<int> lines)
    {
        foreach (var (i, line) in lines.Index())
        {
            faults.Place($"{section}[{i}]", line);
        }
    }
}
