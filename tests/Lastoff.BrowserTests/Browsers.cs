using Microsoft.Playwright;

[assembly: AssemblyFixture(typeof(Lastoff.BrowserTests.Browsers))]

namespace Lastoff.BrowserTests;

/// <summary>As many Chromium as tests run at once. Each serves one test after the other, and what one has compiled the next need not.</summary>
public sealed class Browsers : IAsyncLifetime
{
    private static readonly string[] Arguments =
    [
        "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run", "--disable-component-update", "--disable-sync",
        // Pages of one device run in one process, which keeps the code of the runtime compiled: a page then starts in a third of the time.
        "--process-per-site",
    ];

    /// <summary>Without a window of its own to keep up, which costs a quarter of the time; the whole browser where the system has only that.</summary>
    private static string Chromium => File.Exists(WithoutWindow) ? WithoutWindow : "/usr/bin/chromium";

    private const string WithoutWindow = "/usr/bin/chromium-headless-shell";

    private static readonly Stack<OneBrowser> s_free = new();
    private static IPlaywright? s_playwright;

    /// <summary>One that no other test uses until it is given back.</summary>
    internal static async Task<OneBrowser> TakeAsync()
    {
        lock (s_free)
        {
            if (s_free.TryPop(out var free))
            {
                return free;
            }
        }

        return new OneBrowser(await s_playwright!.Chromium.LaunchAsync(new BrowserTypeLaunchOptions { ExecutablePath = Chromium, Args = Arguments }));
    }

    internal static void GiveBack(OneBrowser browser)
    {
        lock (s_free)
        {
            s_free.Push(browser);
        }
    }

    public async ValueTask InitializeAsync()
    {
        // WebAssembly starts slowly on a busy machine; this only bounds a hang.
        Assertions.SetDefaultExpectTimeout(30_000);
        s_playwright = await Playwright.CreateAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await Beginning.DisposeOnceAsync();
        foreach (var browser in s_free)
        {
            await browser.DisposeAsync();
        }

        s_playwright!.Dispose();
    }
}
