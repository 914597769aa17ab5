using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Bench;

/// <summary>What a campaign came to. Lost, Duplicates, Apart and Wrong must be 0.</summary>
/// <param name="Blows">How often the server, its disk or its database was taken away.</param>
/// <param name="Unanswered">Calls that got no answer.</param>
/// <param name="Away">Calls answered with 503 and a sentence.</param>
/// <param name="Lost">Acknowledged entries that are not in the store.</param>
/// <param name="Duplicates">Entries that are in it more than once.</param>
/// <param name="Apart">Devices' jobs that stand otherwise than the store's.</param>
/// <param name="Wrong">Answers that must never be.</param>
public sealed record CrashResult(int Blows, int Acknowledged, int Unanswered, int Away, int Lost, int Duplicates, int Apart, IReadOnlyList<string> Wrong, double Seconds)
{
    public bool IsSound => Lost == 0 && Duplicates == 0 && Apart == 0 && Wrong.Count == 0;

    public static string Heading => "| blow | times | acknowledged entries | calls unanswered | calls answered 503 | lost | twice | standing apart | wrong answers | seconds |\n|---|--:|--:|--:|--:|--:|--:|--:|--:|--:|";

    public string Row(string blow) => $"| {blow} | {Blows} | {Acknowledged} | {Unanswered} | {Away} | {Lost} | {Duplicates} | {Apart} | {Wrong.Count} | {Seconds:0} |";
}

/// <summary>Several devices write and send without a pause for thought while what they send to is taken away from them, over and over.</summary>
/// <param name="map">The text of the map the jobs are on.</param>
public sealed class CrashCampaign(ServerProcess server, string map, int seed)
{
    private const int Devices = 6;
    private const int Jobs = 4;

    private readonly Random _random = new(seed);
    private readonly OperationNet _net = OperationNet.From(MapReader.Read(map, "map").Map!);

    /// <summary>Kills the server and starts it again, at a random moment each time: while it starts, while it works.</summary>
    public Task<CrashResult> KillAsync(int kills) => RunAsync(async () =>
    {
        for (var kill = 0; kill < kills; kill++)
        {
            // Three times in four at work, else while it starts.
            await Task.Delay(_random.Next(600));
            await server.KillAsync();
            if (_random.Next(4) > 0)
            {
                await server.StartAsync();
            }
            else
            {
                server.Begin();
            }
        }

        await server.KillAsync();
        await server.StartAsync();
        return kills;
    });

    /// <summary>Takes something away from the running server and gives it back, each for some time.</summary>
    public Task<CrashResult> TakeAwayAsync(int times, Action<int> take, Action giveBack) => RunAsync(async () =>
    {
        for (var time = 0; time < times; time++)
        {
            await Task.Delay(200 + _random.Next(400));
            take(time);
            await Task.Delay(500 + _random.Next(1000));
            giveBack();
        }

        return times;
    });

    private async Task<CrashResult> RunAsync(Func<Task<int>> blows)
    {
        var watch = Stopwatch.StartNew();
        using var client = new HttpClient { BaseAddress = server.Address, Timeout = TimeSpan.FromSeconds(30) };
        await server.StartAsync();
        List<SimulatedDevice> devices = [.. Enumerable.Range(0, Devices).Select(i => new SimulatedDevice($"device-{seed}-{i}", client, new Random(seed * 100 + i)))];
        for (var job = 0; job < Jobs; job++)
        {
            var id = devices[0].Open(_net);
            devices.ForEach(device => device.Join(id, devices[0].On(id)));
        }

        await devices[0].SendAsync(CancellationToken.None);
        using var stop = new CancellationTokenSource();
        var working = devices.Select(device => Task.Run(() => WorkAsync(device, stop.Token))).ToList();
        var count = await blows();
        await stop.CancelAsync();
        await Task.WhenAll(working);
        return await CountAsync(client, devices, count, watch);
    }

    private static async Task WorkAsync(SimulatedDevice device, CancellationToken stop)
    {
        for (var round = 0; !stop.IsCancellationRequested; round++)
        {
            device.Write();
            await device.SendAsync(CancellationToken.None);
            if (round % 20 == 19)
            {
                await device.FetchAsync(CancellationToken.None);
            }

            await Task.WhenAny(Task.Delay(device.Waiting > 20 ? 100 : 15, stop));
        }
    }

    private static async Task<CrashResult> CountAsync(HttpClient client, List<SimulatedDevice> devices, int blows, Stopwatch watch)
    {
        // What is left goes out, as it would on the device's next round.
        var patience = Stopwatch.StartNew();
        while (devices.Any(device => device.Waiting > 0) && patience.Elapsed < TimeSpan.FromMinutes(1))
        {
            foreach (var device in devices)
            {
                await device.SendAsync(CancellationToken.None);
            }

            await Task.Delay(50);
        }

        foreach (var device in devices)
        {
            await device.FetchAsync(CancellationToken.None);
        }

        var (lost, duplicates, apart) = (devices.SelectMany(device => device.Acknowledged).ToHashSet(), 0, 0);
        foreach (var id in (await client.GetFromJsonAsync<JsonArray>("api/jobs"))!.Select(job => Guid.Parse((string)job!["id"]!)))
        {
            var page = await client.GetFromJsonAsync<JsonObject>($"api/jobs/{id}/entries");
            var entries = page!["lines"]!.AsArray().Select(line => SimulatedDevice.Read((string)line!)).ToList();
            duplicates += entries.Count - entries.DistinctBy(entry => entry.Id).Count();
            lost.ExceptWith(entries.Select(entry => entry.Id));
            var here = Standing(Job.From(devices[0].On(id).Net, entries));
            apart += devices.Count(device => Standing(device.On(id)) != here);
        }

        var wrong = devices.SelectMany(device => device.Wrong).Concat(devices.Where(device => device.Waiting > 0).Select(device => $"{device.Waiting} entries could not be sent in the end")).ToList();
        return new CrashResult(
            blows, devices.Sum(device => device.Acknowledged.Count), devices.Sum(device => device.Unanswered), devices.Sum(device => device.AnsweredAway),
            lost.Count, duplicates, apart, wrong, watch.Elapsed.TotalSeconds);
    }

    private static string Standing(Job job) => string.Join('\n',
        [$"{job.Entries.Count}", string.Join(',', job.Standing.Done), .. OpenItems.Of(job.Standing).Select(item => item.Sentence), .. job.Standing.Questions.Select(question => question.Sentence)]);
}
