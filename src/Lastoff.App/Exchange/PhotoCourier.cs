using System.Net;
using System.Runtime.InteropServices.JavaScript;
using System.Text.Json;
using System.Text.Json.Nodes;
using Lastoff.App.Device;

namespace Lastoff.App.Exchange;

/// <summary>How much of a photo the server has.</summary>
public sealed record PhotoArrived(long Bytes, bool IsWhole);

/// <summary>Carries photos to the server, piece by piece. Entries never wait for it; it waits for them.</summary>
public sealed class PhotoCourier(Server server, Store store, Courier courier)
{
    /// <summary>What a cut costs at most; a second or two on a bad line.</summary>
    private const int PieceLength = 128 * 1024;

    /// <summary>Where the reasons are kept why the server would not take a photo, by its hash.</summary>
    private const string RefusedName = "refused photos";

    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(5);

    private Dictionary<string, string> _refused = [];
    private bool _isOnTheWay;

    public event Action? Changed;

    /// <summary>The server can be reached: what was not to be had may be now.</summary>
    public event Action? Reached;

    /// <summary>How many files the server does not have: each photo is two, a small and a large one.</summary>
    public int Waiting { get; private set; }
    /// <summary>Why the server did not take a photo; null when there is none such.</summary>
    public string? Refused => _refused.Values.FirstOrDefault();

    public async Task StartAsync()
    {
        _refused = await store.TextsAsync(RefusedName);
        courier.Changed += Call;
        Call();
    }

    /// <summary>A photo was taken, or the network may be back.</summary>
    public void Call()
    {
        if (courier.IsReached)
        {
            Reached?.Invoke();
        }

        _ = GoAsync();
    }

    /// <summary>Makes sure that a photo is on this device, if it can be had; false when it cannot.</summary>
    public async Task<bool> BringAsync(string hash)
    {
        try
        {
            return await StoreModule.HasPhotoAsync(hash) || await PhotoModule.FetchAsync(hash);
        }
        catch (JSException)
        {
            return false;
        }
    }

    private async Task GoAsync()
    {
        if (_isOnTheWay)
        {
            return;
        }

        _isOnTheWay = true;
        try
        {
            foreach (var hash in await CountAsync())
            {
                if (!MayGo || !await SendAsync(hash))
                {
                    break;
                }

                await CountAsync();
            }
        }
        catch (Exception e) when (e is ServerException or JsonException or JSException)
        {
            // Out of reach: it goes on from the last piece.
            await Task.Delay(Pause);
        }
        finally
        {
            _isOnTheWay = false;
        }
    }

    private bool MayGo => courier is { IsReached: true, IsShutOut: false, Waiting: 0 };

    private async Task<List<string>> CountAsync()
    {
        var waiting = JsonSerializer.Deserialize(await StoreModule.WaitingPhotosAsync(), AppJson.Default.ListString)!;
        if (Waiting != waiting.Count)
        {
            Waiting = waiting.Count;
            Changed?.Invoke();
        }

        return waiting;
    }

    /// <summary>Sends what the server does not have of a photo; false when entries have come up that go first.</summary>
    private async Task<bool> SendAsync(string hash)
    {
        var length = await PhotoModule.LengthOfAsync(hash);
        var arrived = await server.ReadAsync($"api/photos/{hash}/arrived", AppJson.Default.PhotoArrived);
        // All of it lies there and is not taken for whole: then it begins anew.
        var from = arrived.Bytes < length ? (int)arrived.Bytes : 0;
        while (!arrived.IsWhole)
        {
            if (!MayGo)
            {
                return false;
            }

            var answer = JsonNode.Parse(await PhotoModule.SendPieceAsync(hash, from, PieceLength))!;
            var (status, said) = ((HttpStatusCode)(int)answer["status"]!, (string)answer["said"]!);
            if (status == HttpStatusCode.BadRequest)
            {
                _refused[hash] = Problem.Detail(said) ?? "It gave no reason.";
                await DoneAsync(hash);
                return true;
            }

            if (status != HttpStatusCode.OK)
            {
                throw new ServerException(status);
            }

            arrived = JsonSerializer.Deserialize(said, AppJson.Default.PhotoArrived)!;
            from = (int)arrived.Bytes;
        }

        _refused.Remove(hash);
        await DoneAsync(hash);
        return true;
    }

    private async Task DoneAsync(string hash)
    {
        await store.KeepTextsAsync(RefusedName, _refused);
        await StoreModule.MarkPhotoAsync(hash);
        Changed?.Invoke();
    }
}
