using Microsoft.Playwright;

[assembly: AssemblyFixture(typeof(Lastoff.BrowserTests.OneBrowser))]

namespace Lastoff.BrowserTests;

/// <summary>One Chromium for all tests, which share nothing in it: to start one for each costs more than many of them.</summary>
public sealed class OneBrowser : IAsyncLifetime
{
    private static readonly string[] Arguments =
        ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run", "--disable-component-update", "--disable-sync"];

    /// <summary>Without a window of its own to keep up, which costs a quarter of the time; the whole browser where the system has only that.</summary>
    private static string Chromium => File.Exists(WithoutWindow) ? WithoutWindow : "/usr/bin/chromium";

    private const string WithoutWindow = "/usr/bin/chromium-headless-shell";

    private static IPlaywright? s_playwright;
    private static IBrowser? s_browser;

    public static Task<IBrowserContext> NewContextAsync(BrowserNewContextOptions options) => s_browser!.NewContextAsync(options);

    public async ValueTask InitializeAsync()
    {
        // WebAssembly starts slowly on a busy machine; this only bounds a hang.
        Assertions.SetDefaultExpectTimeout(30_000);
        s_playwright = await Playwright.CreateAsync();
        s_browser = await s_playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions { ExecutablePath = Chromium, Args = Arguments });
    }

    public async ValueTask DisposeAsync()
    {
        await Beginning.DisposeOnceAsync();
        await s_browser!.DisposeAsync();
        s_playwright!.Dispose();
    }
}
