using Lastoff.Core.Maps;

namespace Lastoff.App.Device;

/// <summary>The maps on this device, ready to work with.</summary>
public sealed class MapShelf(Store store)
{
    private readonly Dictionary<string, (string Yaml, OperationNet Net)> _read = [];

    public async Task<IReadOnlyList<KeptMap>> ListAsync() => [.. (await store.MapsAsync()).OrderBy(m => m.Title, StringComparer.Ordinal)];

    /// <summary>The map, or null when it is not on this device.</summary>
    public async Task<OperationNet?> FindAsync(string name)
    {
        var kept = (await store.MapsAsync()).FirstOrDefault(m => m.Name == name);
        if (kept is null)
        {
            return null;
        }

        if (_read.TryGetValue(name, out var known) && known.Yaml == kept.Yaml)
        {
            return known.Net;
        }

        if (MapReader.Read(kept.Yaml, name).Map is not { } map)
        {
            return null;
        }

        var net = OperationNet.From(map);
        _read[name] = (kept.Yaml, net);
        return net;
    }
}
