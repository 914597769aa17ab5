using System.Runtime.InteropServices.JavaScript;
using System.Text;
using Lastoff.App.Exchange;
using Lastoff.Core;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Device;

/// <summary>One text of a map, ready to work with.</summary>
/// <param name="Fingerprint">The text's SHA-256 in lower-case hex, which jobs name it by.</param>
public sealed record ShelvedMap(OperationNet Net, string Fingerprint, string Yaml);

/// <summary>The maps on this device. A map's text never changes; edited, it is another text, and the newest is for new jobs.</summary>
public sealed class MapShelf(Store store, MapCourier maps, Courier courier, Person person)
{
    private readonly Dictionary<string, ShelvedMap> _read = [];

    public async Task<IReadOnlyList<KeptMap>> ListAsync() => [.. (await store.MapsAsync()).OrderBy(m => m.Title, StringComparer.Ordinal)];

    /// <summary>The newest text of a map, or null when it is not on this device.</summary>
    public async Task<ShelvedMap?> FindAsync(string name) =>
        (await store.MapsAsync()).FirstOrDefault(m => m.Name == name) is { } kept ? await HereAsync(kept.Hash) : null;

    /// <summary>The text that a job stands on: from this device, or else from the server.</summary>
    public async Task<Answer<ShelvedMap>> FindAsync(JobOpened opened)
    {
        if (opened.MapSha256 is { } hash)
        {
            await maps.BringAsync(opened.Map, hash);
        }

        return await HereAsync(opened) is { } here
            ? here
            : Answer.None<ShelvedMap>(Say($"The map “{opened.Map}”, as it was when this job was opened, is not on this device and the server could not give it; come within reach of the server, and let the device that opened the job come too."));
    }

    /// <summary>The text that a job stands on, if it is on this device; null when it is not, and then it is asked for when the server is next reached.</summary>
    public async Task<ShelvedMap?> HereAsync(JobOpened opened)
    {
        if (opened.MapSha256 is not { } hash)
        {
            // Before jobs said which text they stand on, a name had only one.
            return await FindAsync(opened.Map);
        }

        var here = await HereAsync(hash);
        if (here is null)
        {
            maps.Want(opened.Map, hash);
        }

        return here;
    }

    /// <summary>Saves a map: it is on this device at once as the newest of its name, and goes to the server as soon as that is reached.</summary>
    /// <param name="editedFrom">The fingerprint of the text it was edited from; null for a new map.</param>
    /// <returns>The map, or the first thing wrong with it; then nothing was saved.</returns>
    public async Task<Answer<ShelvedMap>> SaveAsync(string yaml, string? editedFrom)
    {
        // As it comes back from the disk and the server: what is no character is none there, and a mark of the byte order is no part of the text.
        yaml = Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(yaml)).TrimStart('\uFEFF');
        var reading = MapReader.Read(yaml, "The map");
        if (reading.Map is not { } map)
        {
            return Answer.None<ShelvedMap>(reading.Describe(reading.Faults[0]));
        }

        var saved = new ShelvedMap(OperationNet.From(map), Entry.Sha256(yaml), yaml);
        try
        {
            await KeepAsync(saved, editedFrom);
        }
        catch (JSException e)
        {
            return Answer.None<ShelvedMap>(Say($"The map was not saved, because the device could not write it down ({e.Message.TrimEnd('.')}); make room on the device and try again."));
        }

        _read[saved.Fingerprint] = saved;
        courier.Call();
        return saved;
    }

    private async Task KeepAsync(ShelvedMap saved, string? editedFrom)
    {
        var (map, hash) = (saved.Net.Map, saved.Fingerprint);
        var isNewest = (await store.MapsAsync()).Any(kept => kept.Name == map.Name && kept.Hash == hash);
        if (isNewest && (await store.TextAsync(hash))?.Waiting is null)
        {
            return;
        }

        var number = (await store.WaitingTextsAsync()).Select(text => text.Waiting).Max() ?? 0;
        await store.KeepSavedAsync(
            new KeptText(hash, map.Name, saved.Yaml, person.Name, editedFrom, number + 1),
            new KeptMap(map.Name, map.Title, map.Invented, hash));
    }

    private async Task<ShelvedMap?> HereAsync(string hash)
    {
        if (_read.TryGetValue(hash, out var known))
        {
            return known;
        }

        if (await store.TextAsync(hash) is not { } text || MapReader.Read(text.Yaml, text.Name).Map is not { } map)
        {
            return null;
        }

        return _read[hash] = new ShelvedMap(OperationNet.From(map), hash, text.Yaml);
    }
}
