using System.Diagnostics;
using Lastoff.Core.Learning;
using Lastoff.Core.Maps;
using Microsoft.Playwright;

namespace Lastoff.Bench;

/// <summary>What the app costs a phone: bytes over the air, the wait at a start, the wait after a tap, memory. The program is published first, as a user is given it.</summary>
internal sealed class AppBench
{
    private const int Operations = 300;
    private const int Starts = 5;
    private const int MaximumSteps = 5000;

    private static readonly string[] Arguments =
        ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run", "--disable-component-update", "--disable-sync"];

    /// <summary>How long the browser took from each click to the next paint, by its own event timing, in steps of 8 ms; and how often something moved that nobody had touched.</summary>
    private const string Watch = """
        () => {
          window.taps = [];
          window.shifts = 0;
          new PerformanceObserver(list => list.getEntries().forEach(e => { if (e.name === 'click') taps.push(e.duration); })).observe({ type: 'event', durationThreshold: 16 });
          new PerformanceObserver(list => list.getEntries().forEach(e => { if (!e.hadRecentInput) shifts += e.value; })).observe({ type: 'layout-shift' });
        }
        """;

    private readonly IPage _page;
    private readonly ICDPSession _wire;
    private double _received_B;

    private AppBench(IPage page, ICDPSession wire) => (_page, _wire) = (page, wire);

    public static async Task<int> RunAsync(string repository)
    {
        var folder = Directory.CreateTempSubdirectory("lastoff-app-").FullName;
        try
        {
            var published = Path.Combine(folder, "published");
            await PublishAsync(repository, published);
            var demo = Directory.CreateDirectory(Path.Combine(folder, "demo")).FullName;
            await File.WriteAllTextAsync(Path.Combine(demo, "generated.map.yaml"), MapOf(Operations));
            foreach (var file in new[] { "price-terms.json", "price-list.json" })
            {
                File.Copy(Path.Combine(repository, "demo", file), Path.Combine(demo, file));
            }

            await File.WriteAllTextAsync(Path.Combine(demo, "jobs.json"), "[]");
            await using var server = new ServerProcess(Path.Combine(published, "lastoff.dll"), "--data", Path.Combine(folder, "data"), "--demo", demo);
            await server.StartAsync();
            using var playwright = await Playwright.CreateAsync();
            await using var browser = await playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions { ExecutablePath = "/usr/bin/chromium", Args = Arguments });
            await using var context = await browser.NewContextAsync(new BrowserNewContextOptions { ViewportSize = new ViewportSize { Width = 390, Height = 844 }, HasTouch = true });
            context.SetDefaultTimeout(90_000);
            var page = await context.NewPageAsync();
            await new AppBench(page, await context.NewCDPSessionAsync(page)).MeasureAsync(server.Address.ToString(), context);
            return 0;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private async Task MeasureAsync(string address, IBrowserContext context)
    {
        _wire.Event("Network.loadingFinished").OnEvent += (_, e) => _received_B += e?.GetProperty("encodedDataLength").GetDouble() ?? 0;
        await _wire.SendAsync("Network.enable");

        await _page.GotoAsync(address);
        await At("person-name").FillAsync("Bench");
        Tell("first visit until it can be used, over the wire", $"{_received_B / 1e6:0.00} MB");
        await At("person-begin").ClickAsync();
        await _page.EvaluateAsync("navigator.serviceWorker.ready.then(() => true)");
        Tell("the same with all that is kept for later", $"{await KeptAsync(address) / 1e6:0.00} MB compressed");

        await OpenJobAsync();
        Tell("warm start, median of five", $"{await StartAsync(address):0} ms");
        await context.SetOfflineAsync(true);
        Tell("start without a network, median of five", $"{await StartAsync(address):0} ms");

        await At("job-line").First.ClickAsync();
        await WorkAsync();
    }

    /// <summary>A step after the other until the goal is home again or nothing more is asked.</summary>
    private async Task WorkAsync()
    {
        await At("step").WaitForAsync();
        await _page.EvaluateAsync(Watch);
        var steps = 0;
        for (; steps < MaximumSteps && await At("step").CountAsync() > 0 && await At("done").CountAsync() > 0; steps++)
        {
            var asked = $"{await At("step").GetAttributeAsync("data-step")} {await At("step").GetAttributeAsync("data-target")}";
            if (await At("tray-choice").CountAsync() > 0 && await At("tray-choice").Locator("[aria-pressed=true]").CountAsync() == 0)
            {
                await At("tray-none").ClickAsync();
            }

            await At("done").ClickAsync();
            await _page.WaitForFunctionAsync("asked => { const s = document.querySelector('[data-test=step]'); return !s || s.dataset.step + ' ' + s.dataset.target !== asked; }", asked);
        }

        var taps = await _page.EvaluateAsync<double[]>("() => window.taps");
        Array.Sort(taps);
        // Quicker than the shortest that the browser tells of are the others.
        double Quicker(double part) => taps.Length + (part * steps) - steps is var i and >= 0 && taps.Length > 0 ? taps[Math.Min((int)i, taps.Length - 1)] : 16;
        Tell($"tap to paint over {steps} steps on {Operations} operations", $"median {Quicker(0.5):0} ms, 95 % {Quicker(0.95):0} ms, longest {Quicker(1):0} ms");
        var shifts = await _page.EvaluateAsync<double>("() => window.shifts");
        Tell("layout shift on the floor", $"{shifts:0.0000}");
        await _wire.SendAsync("Performance.enable");
        var metrics = await _wire.SendAsync("Performance.getMetrics");
        var heap = metrics!.Value.GetProperty("metrics").EnumerateArray().Single(metric => metric.GetProperty("name").GetString() == "JSHeapUsedSize").GetProperty("value").GetDouble();
        var wasm = await _page.EvaluateAsync<double>("() => globalThis.getDotnetRuntime?.(0)?.Module?.HEAPU8?.byteLength ?? NaN");
        Tell("memory after it", $"{wasm / 1e6:0} MB of the program, {heap / 1e6:0} MB of the page");
    }

    private async Task OpenJobAsync()
    {
        await At("open-job").ClickAsync();
        await At("goal-find").WaitForAsync();
        await _page.Locator("[data-test^=goal-part]").Last.CheckAsync();
        await At("machine").FillAsync("An invented machine");
        await At("cause").FillAsync("Made up");
        await At("open-submit").ClickAsync();
        await At("agree-who").FillAsync("The invented owner");
        await At("agree").ClickAsync();
        await At("step").WaitForAsync();
    }

    private async Task<double> StartAsync(string address)
    {
        var times = new List<double>();
        for (var i = 0; i < Starts; i++)
        {
            await _page.GotoAsync("about:blank");
            var watch = Stopwatch.StartNew();
            await _page.GotoAsync(address);
            await At("job-line").First.WaitForAsync();
            times.Add(watch.Elapsed.TotalMilliseconds);
        }

        return times.Order().ElementAt(Starts / 2);
    }

    /// <summary>What the service worker keeps, as it came over the air: each file asked for once more.</summary>
    private static async Task<double> KeptAsync(string address)
    {
        using var client = new HttpClient { BaseAddress = new Uri(address) };
        var list = await client.GetStringAsync("service-worker-assets.js");
        client.DefaultRequestHeaders.AcceptEncoding.ParseAdd("br");
        var bytes = 0.0;
        foreach (var asset in System.Text.Json.Nodes.JsonNode.Parse(list[list.IndexOf('{')..].TrimEnd().TrimEnd(';'))!["assets"]!.AsArray())
        {
            bytes += (await client.GetByteArrayAsync((string)asset!["url"]!)).Length;
        }

        return bytes;
    }

    private ILocator At(string hook) => _page.Locator($"[data-test='{hook}']");

    private static void Tell(string what, string figure) => Console.WriteLine($"{what,-52} {figure}");

    /// <summary>Learned from strips of a generated machine, so that it stands in a file like any other.</summary>
    private static string MapOf(int operations)
    {
        var net = OperationNet.From(MapGenerator.Make(operations, seed: 1));
        var random = new Random(1);
        var goal = net.Map.Parts[^1].Id;
        return LearnedMap.From("generated", "Invented machine of 300 operations", [.. Enumerable.Range(1, 8).Select(strip => RandomStrip.Recorded(net, RandomStrip.Order(net, goal, random, _ => true), $"{strip}"))], []).Value!.Yaml;
    }

    private static async Task PublishAsync(string repository, string folder)
    {
        var start = new ProcessStartInfo("dotnet", ["publish", Path.Combine(repository, "src", "Lastoff"), "-c", "Release", "-o", folder, "--nologo", "-v", "quiet"]) { RedirectStandardOutput = true };
        using var publish = Process.Start(start)!;
        var said = await publish.StandardOutput.ReadToEndAsync();
        await publish.WaitForExitAsync();
        if (publish.ExitCode != 0)
        {
            throw new InvalidOperationException($"It cannot be published: {said}");
        }
    }
}
