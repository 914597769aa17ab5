using Lastoff.Tests.Serving;
using Microsoft.Playwright;

namespace Lastoff.BrowserTests;

/// <summary>A real Chromium, its own context in it, before the real server on an empty data folder, used by its visible controls only.</summary>
public sealed class Bay : IAsyncDisposable
{
    /// <summary>Two that wait, three strips that were recorded.</summary>
    private const int InventedJobs = 5;

    private readonly OneBrowser _browser;
    private readonly Device _device;
    private readonly bool _isGuest;
    /// <summary>What the phone has when somebody comes in; null for nothing.</summary>
    private readonly Beginning? _beginning;
    private readonly List<string> _stopped = [];

    private Bay(RunningServer server, OneBrowser browser, Device device, bool isGuest = false, Beginning? beginning = null)
    {
        _isGuest = isGuest;
        _beginning = beginning;
        Server = server;
        _browser = browser;
        _device = device;
        Page.Console += (_, said) =>
        {
            if (said.Text.Contains("Content Security Policy", StringComparison.Ordinal))
            {
                _stopped.Add(said.Text);
            }
        };
    }

    /// <summary>What the browser did not do because the server's policy forbids it; empty as it should be.</summary>
    public IReadOnlyList<string> Stopped => _stopped;

    public RunningServer Server { get; }

    public IPage Page => _device.Page;

    /// <summary>The device itself, for what cannot be taken back: it serves no other test.</summary>
    public IBrowserContext Spend() => _device.Spend();

    /// <param name="timeZone">Where the device is, by its name in the tz database; where the machine is when left out.</param>
    /// <param name="isNew">The app was never on the device.</param>
    public static async Task<Bay> Open(int width, int height, string? timeZone = null, bool isNew = false)
    {
        var beginning = await Beginning.Once;
        return await Open(port => RunningServer.StartOnCopy(beginning.Records, port), width, height, timeZone, isNew, beginning);
    }

    /// <summary>Before a workshop in which nothing is yet.</summary>
    public static Task<Bay> OpenEmpty(int width, int height) => Open(RunningServer.StartEmpty, width, height);

    /// <summary>The first device before that server.</summary>
    public static Task<Bay> FirstAt(RunningServer server) => Open(_ => Task.FromResult(server), 390, 844);

    /// <summary>Another device before the same server, with nothing kept on it yet.</summary>
    public async Task<Bay> Beside(int width, int height) => new(Server, _browser, await _browser.TakeAsync(width, height, Server.Address), isGuest: true);

    private static async Task<Bay> Open(Func<int, Task<RunningServer>> start, int width, int height, string? timeZone = null, bool isNew = false, Beginning? beginning = null)
    {
        var browser = await Browsers.TakeAsync();
        var server = await start(browser.Port);
        return new Bay(server, browser, await browser.TakeAsync(width, height, server.Address, timeZone, isNew), beginning: beginning);
    }

    /// <summary>Comes to the list of jobs, on a phone that was there before where it begins as a copy of one.</summary>
    public async Task ComeIn()
    {
        if (_beginning is null)
        {
            await ComeInFirst();
            return;
        }

        await _beginning.HandAsync(_device.Keeper);
        await Page.GotoAsync(Server.Address.ToString());
        await ComeBack();
    }

    /// <summary>Says who is writing, on the first visit, with what the phone has kept until then.</summary>
    public async Task ComeInFirst()
    {
        await Page.GotoAsync(Server.Address.ToString());
        await At("person-name").FillAsync("Bay Tester");
        await At("person-begin").ClickAsync();
        await ComeBack();
    }

    /// <summary>Waits for the last of the invented jobs: a list that still grows moves what is looked at.</summary>
    public Task ComeBack() => At("job-line").Nth(InventedJobs - 1).WaitForAsync();

    /// <summary>Takes the network away, or gives it back; never before the browser has the app, as on the first visit it would not start again.</summary>
    public async Task SetOffline(bool offline)
    {
        if (offline)
        {
            await Page.EvaluateAsync("navigator.serviceWorker.ready.then(() => true)");
        }

        await _device.Context.SetOfflineAsync(offline);
    }

    public ILocator At(string hook) => Page.Locator($"[data-test='{hook}']");

    /// <summary>Unfolds what is folded up. What is worked out above it may move it from under the finger, and then it is tapped once more.</summary>
    public async Task Unfold(string hook)
    {
        for (var taps = 0; taps < 3 && await At(hook).GetAttributeAsync("open") is null; taps++)
        {
            await At(hook).Locator("summary").ClickAsync();
        }
    }

    public async Task OpenWaitingJob(string words)
    {
        await At("job-line").Filter(new LocatorFilterOptions { HasText = words }).ClickAsync();
        await At("agree-who").FillAsync("The invented owner");
        await At("agree").ClickAsync();
        await At("step").WaitForAsync();
    }

    public async Task OpenJobWithoutMap(string machine = "Invented mower", string complaint = "Drips at the front")
    {
        await At("open-job").ClickAsync();
        await At("map-none").CheckAsync();
        await At("machine").FillAsync(machine);
        await At("complaint").FillAsync(complaint);
        await At("open-submit").ClickAsync();
        await At("record").WaitForAsync();
    }

    /// <summary>What the Now screen asks for, or null when it asks for the handover.</summary>
    public async Task<(string Kind, string Target)?> Asked()
    {
        await Page.Locator("[data-test=step], [data-test=hand-over]").First.WaitForAsync();
        return await At("step").CountAsync() == 0
            ? null
            : ((await At("step").GetAttributeAsync("data-step"))!, (await At("step").GetAttributeAsync("data-target"))!);
    }

    /// <summary>The choice of a tray where nobody has said yet where the fasteners go.</summary>
    public const string NoTraySaid = "[data-test=tray-choice]:not(:has([aria-pressed=true]))";

    /// <summary>Goes on to where fasteners go into a tray, and says which step that is.</summary>
    public async Task<(string Kind, string Target)> ToFasteners()
    {
        while (await Asked() is { } asked && await At("tray-choice").CountAsync() == 0)
        {
            await DoIt(asked);
        }

        return (await Asked())!.Value;
    }

    /// <summary>Does what is asked for, and waits until the screen asks for something else.</summary>
    public async Task DoIt((string Kind, string Target) asked)
    {
        if (asked.Kind == "Prove")
        {
            await At("reading").FillAsync("As it should be");
            await At("verdict-good").CheckAsync();
            await At("prove").ClickAsync();
        }
        else if (asked.Kind == "Tighten")
        {
            // All that is left of the pass at once; a joint of one bolt has only the one act.
            await At(await At("whole-pass").CountAsync() > 0 ? "whole-pass" : "next-bolt").ClickAsync();
        }
        else
        {
            if (await At("litres").CountAsync() > 0)
            {
                await At("litres").FillAsync("1.2");
            }

            if (await Page.Locator(NoTraySaid).CountAsync() > 0)
            {
                await At("tray-none").ClickAsync();
            }

            await At("done").ClickAsync();
        }

        await UntilPast(asked);
    }

    /// <summary>Waits until another step is asked for.</summary>
    public Task UntilPast((string Kind, string Target) asked) => Page.WaitForFunctionAsync(
        "asked => { const s = document.querySelector('[data-test=step]'); return !s || s.dataset.step + ' ' + s.dataset.target !== asked; }",
        $"{asked.Kind} {asked.Target}");

    /// <summary>Waits until what was just typed at a step is on the device's disk: a page left sooner takes the writing with it.</summary>
    public Task UntilKept(string typed) => Page.WaitForFunctionAsync(
        """
        typed => new Promise((done, failed) => {
            const opening = indexedDB.open('lastoff');
            opening.onerror = () => failed(opening.error);
            opening.onsuccess = () => {
                const asking = opening.result.transaction('settings').objectStore('settings').getAll();
                asking.onerror = () => failed(asking.error);
                asking.onsuccess = () => {
                    opening.result.close();
                    done(asking.result.some(kept => kept.startsWith('{') && Object.values(JSON.parse(kept)).includes(typed)));
                };
            };
        })
        """,
        typed);

    /// <summary>Takes a photo as a camera gives it: larger than is kept, and so rough that it does not shrink to nothing.</summary>
    /// <param name="of">What it is said to be of; null for the camera at the foot of the page.</param>
    public async Task TakePhoto(string? of = null)
    {
        var file = await Page.EvaluateAsync<string>(
            """
            () => {
                const canvas = document.createElement('canvas');
                [canvas.width, canvas.height] = [2400, 1800];
                const context = canvas.getContext('2d');
                const rough = context.createImageData(canvas.width, canvas.height);
                let state = 1;
                for (let i = 0; i < rough.data.length; i++) {
                    state = (state * 1103515245 + 12345) & 0x7fffffff;
                    rough.data[i] = i % 4 === 3 ? 255 : 90 + (state >> 24);
                }
                context.putImageData(rough, 0, 0);
                context.fillStyle = '#c9a227';
                for (let bolt = 0; bolt < 6; bolt++) {
                    context.beginPath();
                    context.arc(1200 + 600 * Math.cos(bolt * Math.PI / 3), 900 + 600 * Math.sin(bolt * Math.PI / 3), 120, 0, 7);
                    context.fill();
                }
                return canvas.toDataURL('image/jpeg', 0.9).split(',')[1];
            }
            """);
        await (of is null ? Page.Locator(".other-acts [data-test=camera-file]") : At("camera").Filter(new LocatorFilterOptions { HasText = of }).Locator("[data-test=camera-file]")).SetInputFilesAsync(new FilePayload { Name = "shot.jpg", MimeType = "image/jpeg", Buffer = Convert.FromBase64String(file) });
    }

    public async ValueTask DisposeAsync()
    {
        await _browser.GiveBackAsync(_device);
        if (_isGuest)
        {
            return;
        }

        await Server.DisposeAsync();
        Browsers.GiveBack(_browser);
    }
}
