using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.App.Device;

/// <summary>A map of this device, ready to work with.</summary>
/// <param name="Fingerprint">Changes whenever the map's text does.</param>
public sealed record ShelvedMap(OperationNet Net, string Fingerprint);

/// <summary>The maps on this device.</summary>
public sealed class MapShelf(Store store)
{
    private readonly Dictionary<string, (string Yaml, ShelvedMap Map)> _read = [];

    public async Task<IReadOnlyList<KeptMap>> ListAsync() => [.. (await store.MapsAsync()).OrderBy(m => m.Title, StringComparer.Ordinal)];

    /// <summary>The map, or null when it is not on this device.</summary>
    public async Task<ShelvedMap?> FindAsync(string name)
    {
        var kept = (await store.MapsAsync()).FirstOrDefault(m => m.Name == name);
        if (kept is null)
        {
            return null;
        }

        if (_read.TryGetValue(name, out var known) && known.Yaml == kept.Yaml)
        {
            return known.Map;
        }

        if (MapReader.Read(kept.Yaml, name).Map is not { } map)
        {
            return null;
        }

        var shelved = new ShelvedMap(OperationNet.From(map), Entry.Sha256(kept.Yaml));
        _read[name] = (kept.Yaml, shelved);
        return shelved;
    }
}
