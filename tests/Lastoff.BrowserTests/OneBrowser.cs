using Lastoff.Bench;
using Microsoft.Playwright;

namespace Lastoff.BrowserTests;

/// <summary>A Chromium for one test at a time, with the devices that tests before it have left clean. They keep the app itself, as a phone that was there before does.</summary>
internal sealed class OneBrowser(IBrowser browser) : IAsyncDisposable
{
    private readonly List<Device> _free = [];

    /// <summary>Where its servers stand, one after the other.</summary>
    public int Port { get; } = ServerProcess.FreePort();

    /// <summary>A device on which nothing is kept.</summary>
    /// <param name="server">Where the app can be fetched.</param>
    /// <param name="timeZone">Where the device is, by its name in the tz database; where the machine is when left out.</param>
    /// <param name="isNew">The app was never there either.</param>
    public async Task<Device> TakeAsync(int width, int height, Uri server, string? timeZone = null, bool isNew = false)
    {
        var kind = new DeviceKind(width < 600, timeZone);
        var device = isNew ? null : _free.Find(free => free.Kind == kind);
        if (device is null)
        {
            device = await Device.MakeAsync(browser, kind, server);
        }
        else
        {
            _free.Remove(device);
        }

        await device.OpenPageAsync(width, height);
        return device;
    }

    public async Task GiveBackAsync(Device device)
    {
        if (await device.CleanAsync())
        {
            _free.Add(device);
        }
    }

    public ValueTask DisposeAsync() => browser.DisposeAsync();
}
