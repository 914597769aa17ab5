namespace Lastoff.Core.Maps;

/// <summary>Reads a map file and reports every fault in it at once.</summary>
public static class MapReader
{
    /// <summary>Reads the text of a map file. Nothing in the text makes it throw.</summary>
    public static MapReading Read(string yaml, string fileName)
    {
        ArgumentNullException.ThrowIfNull(yaml);
        var faults = new FaultList();
        Map? map = null;
        if (MapText.IsReadable(yaml, faults) && YamlTree.Parse(yaml, faults) is { } root)
        {
            map = new MapFields(faults).Read(root);
            MapCheck.Check(map, faults);
        }

        return new MapReading(fileName, faults.Count == 0 ? map : null, faults.ByLine());
    }
}
