using Microsoft.Playwright;

namespace Lastoff.BrowserTests;

/// <param name="HasTouch">A phone, or else a desk.</param>
/// <param name="TimeZone">Null for that of the machine.</param>
internal sealed record DeviceKind(bool HasTouch, string? TimeZone);

/// <summary>What a person holds: a context of a browser that shares nothing with others, and one page in it. After a test it is emptied and serves the next.</summary>
internal sealed class Device
{
    private readonly ICDPSession _chromium;
    private bool _isSpent;

    private Device(DeviceKind kind, IBrowserContext context, IPage keeper, ICDPSession chromium) => (Kind, Context, Keeper, _chromium, Page) = (kind, context, keeper, chromium, keeper);

    public DeviceKind Kind { get; }

    public IBrowserContext Context { get; }

    public IPage Page { get; private set; }

    /// <summary>A page that holds the runtime's code and does nothing: what is compiled of it stays with the process as long as somebody holds it.</summary>
    public IPage Keeper { get; }

    public static async Task<Device> MakeAsync(IBrowser browser, DeviceKind kind, Uri server)
    {
        var context = await browser.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = kind.HasTouch ? new ViewportSize { Width = 390, Height = 844 } : new ViewportSize { Width = 1440, Height = 900 },
            HasTouch = kind.HasTouch,
            AcceptDownloads = true,
            ReducedMotion = ReducedMotion.Reduce,
            TimezoneId = kind.TimeZone,
        });
        context.SetDefaultTimeout(90_000);
        var keeper = await context.NewPageAsync();
        await keeper.GotoAsync(new Uri(server, "manifest.webmanifest").ToString());
        await keeper.EvaluateAsync("async () => { window.kept = await WebAssembly.compileStreaming(fetch('/_framework/dotnet.native.wasm')); }");
        return new Device(kind, context, keeper, await context.NewCDPSessionAsync(keeper));
    }

    public async Task OpenPageAsync(int width, int height)
    {
        Page = await Context.NewPageAsync();
        await Page.SetViewportSizeAsync(width, height);
    }

    /// <summary>For what cannot be taken back: this device serves no other test.</summary>
    public IBrowserContext Spend()
    {
        _isSpent = true;
        return Context;
    }

    /// <summary>Takes away all that was kept on it but the app itself; false when it is spent, and gone.</summary>
    public async Task<bool> CleanAsync()
    {
        if (_isSpent)
        {
            await Context.CloseAsync();
            return false;
        }

        foreach (var page in Context.Pages.Where(page => page != Keeper).ToList())
        {
            await page.CloseAsync();
        }

        await Context.SetOfflineAsync(false);
        await Context.ClearCookiesAsync();
        await _chromium.SendAsync("Storage.clearDataForOrigin", new() { ["origin"] = new Uri(Keeper.Url).GetLeftPart(UriPartial.Authority), ["storageTypes"] = "local_storage,indexeddb,file_systems" });
        return true;
    }
}
