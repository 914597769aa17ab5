using System.Net;
using System.Runtime.InteropServices.JavaScript;
using System.Text.Json;
using Lastoff.App.Device;
using Lastoff.Core.Ledger;

namespace Lastoff.App.Exchange;

/// <summary>Carries entries, the maps they stand on, and changes to the price list between the device and the server, whenever there is a network. Nothing waits for it.</summary>
public sealed class Courier(Server server, Store store, MapCourier maps, PriceBook prices)
{
    /// <summary>A piece of a long outbox; far below what the server takes at once.</summary>
    private const int EntriesAtOnce = 200;

    /// <summary>The header of the list of jobs that says which store the server has.</summary>

    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(15);

    private readonly HashSet<string> _sentAgain = [];
    private bool _isOnTheWay;
    private bool _isCalledAgain;
    private bool _isUnknown;

    public event Action? Changed;

    /// <summary>False until the server has answered, and again when it does not.</summary>
    public bool IsReached { get; private set; }
    /// <summary>True while the server answers but does not know this device.</summary>
    public bool IsShutOut { get; private set; }
    /// <summary>True once the first round trip is over, well or not.</summary>
    public bool HasTried { get; private set; }
    /// <summary>How many entries the server does not have yet.</summary>
    public int Waiting { get; private set; }
    /// <summary>Why the server did not take an entry; null when there is none such.</summary>
    public string? Refused { get; private set; }

    public async Task StartAsync()
    {
        PageModule.WhenOnline(Call);
        PageModule.WhenTold(Call);
        prices.Written += Call;
        using var timer = new PeriodicTimer(Pause);
        do
        {
            await GoAsync();
        }
        while (await timer.WaitForNextTickAsync());
    }

    /// <summary>Something is to be carried, or the network may be back.</summary>
    public void Call() => _ = GoAsync();

    private async Task GoAsync()
    {
        if (_isOnTheWay)
        {
            _isCalledAgain = true;
            return;
        }

        (_isOnTheWay, _isUnknown) = (true, false);
        try
        {
            do
            {
                _isCalledAgain = false;
                await CountAsync();
                // A map is large, and nothing may hold up an entry: whoever reads the job before its map has come asks for that until it has.
                foreach (var job in (await store.WaitingAsync()).GroupBy(e => e.Job))
                {
                    await UnlessAnsweredWithAnErrorAsync(() => SendAsync(job));
                }

                if (prices.Waiting > 0)
                {
                    await UnlessAnsweredWithAnErrorAsync(prices.SendAsync);
                }

                await UnlessAnsweredWithAnErrorAsync(maps.SendAsync);
                await UnlessAnsweredWithAnErrorAsync(maps.FetchAsync);
                await UnlessAnsweredWithAnErrorAsync(FetchJobsAsync);
                (IsReached, IsShutOut) = (true, _isUnknown);
            }
            while (_isCalledAgain);
        }
        catch (Exception e) when (e is ServerException or JsonException or JSException)
        {
            (IsReached, IsShutOut) = (false, false);
        }
        finally
        {
            _isOnTheWay = false;
            HasTried = true;
        }

        try
        {
            await CountAsync();
        }
        catch (JSException)
        {
            // The device's store is busy or full; the next round counts again.
        }
    }

    /// <summary>An error about one job or one map must not keep the others from going; the next round tries it again.</summary>
    private async Task UnlessAnsweredWithAnErrorAsync(Func<Task> carry)
    {
        try
        {
            await carry();
        }
        catch (ServerException e) when (e.Status is { } status)
        {
            _isUnknown |= status == HttpStatusCode.Unauthorized;
        }
    }

    private async Task CountAsync()
    {
        var waiting = await store.WaitingAsync();
        Waiting = waiting.Count;
        Refused = waiting.FirstOrDefault(e => e.Refused is not null)?.Refused;
        Changed?.Invoke();
    }

    private async Task SendAsync(IGrouping<string, KeptEntry> job)
    {
        // The server refuses what does not join on to what it has; if it has lost something, sending all of it mends that.
        if (!await SendAsync(job.Key, job) && _sentAgain.Add(job.Key))
        {
            await store.SendAgainAsync(job.Key);
            await SendAsync(job.Key, (await store.WaitingAsync()).Where(e => e.Job == job.Key));
        }
    }

    /// <summary>Sends the entries of a job; false when the server would not take one.</summary>
    private async Task<bool> SendAsync(string job, IEnumerable<KeptEntry> entries)
    {
        var isWhole = true;
        // The entry that opens the job goes first: no other is taken before it.
        var inOrder = entries.OrderBy(e => e.Id == job ? 0 : 1).ThenBy(e => e.Device, StringComparer.Ordinal).ThenBy(e => e.Seq);
        foreach (var piece in inOrder.Chunk(EntriesAtOnce))
        {
            var answer = await server.PostAsync($"api/jobs/{job}/entries", string.Concat(piece.Select(e => e.Line + "\n")), "application/jsonl");
            var receipt = JsonSerializer.Deserialize(answer.IfGood().Text, AppJson.Default.Receipt)!;
            await store.MarkSentAsync(receipt.Accepted);
            if (receipt.Refused.Count > 0)
            {
                await store.MarkRefusedAsync(receipt.Refused);
                isWhole = false;
            }
        }

        return isWhole;
    }

    private async Task FetchJobsAsync()
    {
        var here = (await store.JobsAsync()).ToDictionary(j => j.Id);
        var answer = (await server.GetAsync("api/jobs")).IfGood();
        var there = JsonSerializer.Deserialize(answer.Text, AppJson.Default.ListListedJob)!;
        var name = answer.Store;
        var isAnother = name != await store.ServerAsync();
        // A server with another store, or with less than it had, was set up anew or went back to a backup. This device still has it all.
        foreach (var lost in here.Values.Where(mine => isAnother || mine.Entries > (there.FirstOrDefault(job => job.Id == mine.Id)?.Entries ?? 0)).ToList())
        {
            here[lost.Id] = lost with { UpTo = 0, Entries = 0 };
            await store.SendAgainAsync(lost.Id);
            await store.KeepArrivedAsync(here[lost.Id], []);
            _isCalledAgain = true;
        }

        if (isAnother)
        {
            _sentAgain.Clear();
            await maps.SendAllAgainAsync();
            await store.SendPhotosAgainAsync();
            _isCalledAgain = true;
            await store.KeepServerAsync(name);
        }

        foreach (var job in there)
        {
            var known = here.GetValueOrDefault(job.Id);
            if (known?.Entries >= job.Entries)
            {
                continue;
            }

            var page = await server.ReadAsync($"api/jobs/{job.Id}/entries?after={known?.UpTo ?? 0}", AppJson.Default.EntryPage);
            List<Entry> entries = [.. EntryLine.ReadAll(page.Lines)];
            if (JobOpened.In(entries) is { MapSha256: { } hash } opened && !await maps.BringAsync(opened.Map, hash))
            {
                maps.Want(opened.Map, hash);
            }

            await store.KeepArrivedAsync(new KeptJob(job.Id, job.Map, page.UpTo, job.Entries), entries);
        }
    }
}
