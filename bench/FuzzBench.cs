using System.Diagnostics;
using Lastoff.Core.Maps;

namespace Lastoff.Bench;

/// <summary>The long run of <see cref="FuzzRun"/>: two fifths maps, two fifths ledgers, one fifth requests to a real server.</summary>
public static class FuzzBench
{
    public static async Task<int> RunAsync(string repository, int inputs)
    {
        var demo = Path.Combine(repository, "demo");
        string[] maps = [.. Directory.EnumerateFiles(demo, "*.map.yaml").Order(StringComparer.Ordinal).Select(File.ReadAllText)];
        var ledger = await File.ReadAllTextAsync(Path.Combine(demo, "orchard-sprayer-pump.ledger.jsonl"));
        var net = OperationNet.From(MapReader.Read(await File.ReadAllTextAsync(Path.Combine(demo, "orchard-sprayer-pump.map.yaml")), "sprayer").Map!);
        var isSound = Tell("maps", inputs * 2 / 5, count => FuzzRun.Maps(maps, count));
        isSound &= Tell("ledgers", inputs * 2 / 5, count => FuzzRun.Ledgers([ledger], net, count));

        var folder = Directory.CreateTempSubdirectory("lastoff-fuzz-").FullName;
        await using var server = new ServerProcess(Built.Lastoff, "--data", folder, "--demo", demo);
        await server.StartAsync();
        using var client = new HttpClient { BaseAddress = server.Address };
        isSound &= Tell("requests", inputs / 5, count => FuzzRun.EndpointAsync(client, ledger, count).GetAwaiter().GetResult());
        var isAlive = server.IsRunning;
        Console.WriteLine($"the server {(isAlive ? "still answers" : "has ended")}");
        await server.KillAsync();
        Directory.Delete(folder, recursive: true);
        return isSound && isAlive ? 0 : 1;
    }

    private static bool Tell(string what, int inputs, Func<int, IReadOnlyList<string>> run)
    {
        var watch = Stopwatch.StartNew();
        var wrong = run(inputs);
        Console.WriteLine($"{inputs} broken {what}: {wrong.Count} wrong, {watch.Elapsed.TotalSeconds:0} s");
        foreach (var fault in wrong.Take(10))
        {
            Console.WriteLine("  " + fault);
        }

        return wrong.Count == 0;
    }
}
