namespace Lastoff.Core.Maps;

/// <summary>What each identifier of a map stands for; used twice, it stands for the first.</summary>
internal sealed class MapNames
{
    private readonly Dictionary<string, (string Sort, string Path)> _named = [];

    public MapNames(Map map)
    {
        foreach (var (sort, path, id) in Items(map))
        {
            _named.TryAdd(id, (sort, path));
        }
    }

    /// <summary>Everything of the map that has an identifier, with the word for its sort and where it stands.</summary>
    public static IEnumerable<(string Sort, string Path, string Id)> Items(Map map) =>
    [
        .. map.Supplies.Select((s, i) => ("supply", $"supplies[{i}]", s.Id)),
        .. map.Parts.Select((p, i) => ("part", $"parts[{i}]", p.Id)),
        .. map.Joints.Select((j, i) => ("joint", $"joints[{i}]", j.Id)),
        .. map.Openings.Select((o, i) => ("opening", $"openings[{i}]", o.Id)),
        .. map.Renewals.Select((r, i) => ("renewal", $"renewals[{i}]", r.Id)),
        .. map.Proofs.Select((p, i) => ("proof", $"proofs[{i}]", p.Id)),
    ];

    public string? SortOf(string id) => _named.TryGetValue(id, out var named) ? named.Sort : null;

    /// <summary>Where the thing with this identifier stands.</summary>
    /// <exception cref="KeyNotFoundException">Nothing has it.</exception>
    public string PathOf(string id) => _named[id].Path;

    public bool IsPart(string id) => SortOf(id) == "part";

    public bool IsJoint(string id) => SortOf(id) == "joint";

    public bool IsSupply(string id) => SortOf(id) == "supply";

    public IEnumerable<string> Of(IReadOnlyCollection<string> sorts) => _named.Where(n => sorts.Contains(n.Value.Sort)).Select(n => n.Key);
}
