using System.Net;
using System.Runtime.InteropServices.JavaScript;
using System.Text.Json;
using System.Text.Json.Nodes;
using Lastoff.App.Device;
using Lastoff.Core.Ledger;

namespace Lastoff.App.Exchange;

/// <summary>Carries the texts of maps between the device and the server, each under its SHA-256. <see cref="Courier"/> says when.</summary>
public sealed class MapCourier(Server server, Store store)
{
    /// <summary>The savings that the server would not take since the app was started: they are not sent again by themselves.</summary>
    private readonly HashSet<(string Hash, long? Saving)> _refused = [];

    /// <summary>The texts that jobs here stand on and that nobody had when they were asked for, with the names of their maps.</summary>
    private readonly Dictionary<string, string> _wanted = [];

    public event Action? Changed;

    /// <summary>A text came that was missing.</summary>
    public event Action? Arrived;

    /// <summary>How many texts the server does not have.</summary>
    public int Waiting { get; private set; }

    /// <summary>A text that the server would not take as the newest; null when there is none such.</summary>
    public KeptText? Refused { get; private set; }

    /// <summary>A job stands on this text, and it is not here.</summary>
    public void Want(string name, string hash) => _wanted[hash] = name;

    /// <summary>Sends what waits. The server keeps a text that is not the newest there too; only what was saved last here is to become that.</summary>
    public async Task SendAsync()
    {
        var waiting = await CountAsync();
        var shelf = (await store.MapsAsync()).Select(map => map.Hash).ToHashSet();
        foreach (var text in waiting.Where(text => !_refused.Contains((text.Hash, text.Waiting))).OrderBy(text => text.Waiting).ThenBy(text => !shelf.Contains(text.Hash)))
        {
            var isForNewest = text.Waiting > 0 && !waiting.Any(other => other.Name == text.Name && other.Waiting > text.Waiting)
                || text.Waiting == 0 && shelf.Contains(text.Hash);
            try
            {
                await SendAsync(text, isForNewest);
            }
            catch (ServerException e) when (e.Status is not null and not HttpStatusCode.Unauthorized)
            {
                // The server cannot take this one now; the next round tries it again, and the others go on.
            }
        }

        await CountAsync();
    }

    /// <summary>Fetches the newest text of each map, and what jobs here stand on.</summary>
    public async Task FetchAsync()
    {
        var shelf = (await store.MapsAsync()).ToDictionary(map => map.Name);
        foreach (var map in await server.ReadAsync("api/maps", AppJson.Default.ListListedMap))
        {
            if (shelf.GetValueOrDefault(map.Name)?.Hash != map.Sha256 && (await store.TextAsync(map.Sha256) ?? await FetchAsync(map.Name, map.Sha256)) is { } text)
            {
                await store.KeepFetchedAsync(text, new KeptMap(map.Name, map.Title, map.Invented, map.Sha256));
            }
        }

        foreach (var (hash, name) in _wanted.ToList())
        {
            if (await BringAsync(name, hash))
            {
                Arrived?.Invoke();
            }
        }
    }

    /// <summary>Makes sure that a text is on this device, if it can be had; false when it cannot.</summary>
    public async Task<bool> BringAsync(string name, string hash)
    {
        try
        {
            if (await store.TextAsync(hash) is null)
            {
                if (await FetchAsync(name, hash) is not { } text)
                {
                    return false;
                }

                await store.KeepFetchedAsync(text, null);
            }

            _wanted.Remove(hash);
            return true;
        }
        catch (Exception e) when (e is ServerException or JSException)
        {
            return false;
        }
    }

    /// <summary>The server's newest is to stand: this one is only kept.</summary>
    public async Task YieldAsync(KeptText text)
    {
        await store.MarkTextSentAsync(text);
        _refused.Remove((text.Hash, text.Waiting));
        await CountAsync();
    }

    /// <summary>The server is another: it gets every text that is here, those too that the one before would not take.</summary>
    public Task SendAllAgainAsync()
    {
        _refused.Clear();
        return store.SendTextsAgainAsync();
    }

    private async Task<IReadOnlyList<KeptText>> CountAsync()
    {
        var waiting = await store.WaitingTextsAsync();
        (Waiting, Refused) = (waiting.Count, waiting.FirstOrDefault(text => text.Refused is not null));
        Changed?.Invoke();
        return waiting;
    }

    private async Task SendAsync(KeptText text, bool isForNewest)
    {
        var answer = await server.PutAsync($"api/maps/{text.Name}?edited_from={text.EditedFrom}&by={Uri.EscapeDataString(text.By ?? "")}{(isForNewest ? "" : "&beside=true")}", text.Yaml, "application/yaml");
        // What comes from a server that was lost is only brought back: it is kept there whatever the answer, and nobody is to be asked about it.
        if (answer.IsGood || (text.Waiting == 0 && (answer.Status is HttpStatusCode.Conflict or HttpStatusCode.Forbidden)))
        {
            await store.MarkTextSentAsync(text);
        }
        else if (answer.Status is HttpStatusCode.BadRequest or HttpStatusCode.Forbidden or HttpStatusCode.Conflict or HttpStatusCode.RequestEntityTooLarge)
        {
            var said = Said(answer.Text);
            _refused.Add((text.Hash, text.Waiting));
            await store.MarkTextRefusedAsync(text, (string?)said?["detail"] ?? $"It gave no reason ({(int)answer.Status}).", (string?)said?["newest"]);
        }
        else
        {
            answer.IfGood();
        }
    }

    private async Task<KeptText?> FetchAsync(string name, string hash)
    {
        var answer = await server.GetAsync($"api/maps/texts/{hash}");
        if (answer.Status == HttpStatusCode.NotFound)
        {
            return null;
        }

        var yaml = answer.IfGood().Text;
        return Entry.Sha256(yaml) == hash ? new KeptText(hash, name, yaml) : null;
    }

    private static JsonNode? Said(string text)
    {
        try
        {
            return JsonNode.Parse(text);
        }
        catch (JsonException)
        {
            // Something between here and the server answered in its own way.
            return null;
        }
    }
}
