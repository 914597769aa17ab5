using System.Collections.Concurrent;
using System.Net.Http.Headers;
using Lastoff.Core.Ledger;
using Microsoft.Playwright;
using static Lastoff.BrowserTests.Soundness;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>A photo taken where there is no network: kept, sent through cuts, seen on another device; and no entry ever waits for it.</summary>
public class PhotoTests
{
    private const string Pieces = "**/api/photos/*";

    /// <summary>A picture is made small by the processor, and that one may have other things to do.</summary>
    private static readonly LocatorAssertionsToBeVisibleOptions Patient = new() { Timeout = 60_000 };

    [Fact]
    public async Task A_photo_taken_offline_is_kept_goes_on_after_a_cut_and_holds_no_entry_up()
    {
        var ct = TestContext.Current.CancellationToken;
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        await Expect(bay.At("sync")).ToHaveAttributeAsync("data-state", "sent", new() { Timeout = 60_000 });
        var job = new Uri(bay.Page.Url).Segments[^1];

        await bay.SetOffline(true);
        var asked = (await bay.Asked())!.Value;
        await bay.TakePhoto();
        await Expect(bay.At("step").Locator("[data-test=picture]")).ToBeVisibleAsync(Patient);
        await Expect(bay.At("sync")).ToContainTextAsync("photos to send", new() { Timeout = 60_000 });
        await bay.Page.ReloadAsync();
        await Expect(bay.At("step").Locator("[data-test=picture]")).ToBeVisibleAsync(Patient);
        await IsSound(bay, "a step with its photo");
        await bay.At("step").Locator("[data-test=photo]").ClickAsync();
        await Expect(bay.At("photo-sheet").Locator("[data-test=picture]")).ToBeVisibleAsync(Patient);
        await bay.Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = ColorScheme.Dark });
        await IsSound(bay, "a photo large in the dark");
        await bay.At("photo-sheet-close").ClickAsync();
        await bay.At("tab-account").ClickAsync();
        // More of them than fit beside one another go on sideways in their own row, and make no page wider.
        await bay.Page.EvaluateAsync("() => { const row = document.querySelector('.pane.account .photo-row'); for (let i = 0; i < 6; i++) row.append(row.firstElementChild.cloneNode(true)); }");
        await IsSound(bay, "the account with photos in the dark");
        await bay.Page.ReloadAsync();
        await bay.At("account").Or(bay.Page.Locator(".pane.account")).First.WaitForAsync();
        await bay.Page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = ColorScheme.Light });
        await bay.At("tab-now").ClickAsync();

        // The line is back, and breaks in the middle of the large picture.
        var ranges = new ConcurrentQueue<ContentRangeHeaderValue>();
        var held = new TaskCompletionSource();
        await bay.Page.RouteAsync(Pieces, async route =>
        {
            if (route.Request.Method == "PUT")
            {
                ranges.Enqueue(ContentRangeHeaderValue.Parse((await route.Request.HeaderValueAsync("content-range"))!));
                if (ranges.Count == 3)
                {
                    await route.AbortAsync();
                    return;
                }

                if (ranges.Count > 3)
                {
                    await held.Task;
                }
            }

            await route.ContinueAsync();
        });
        await bay.SetOffline(false);
        await Until(() => ranges.Count >= 4);

        // While it stands still, an entry goes by.
        await bay.DoIt(asked);
        await Until(async () => LedgerFile.Read(await bay.Server.Client.GetStringAsync($"/api/jobs/{job}/ledger", ct), "server").Entries.Any(entry => ActKinds.Read(entry, out _) is Moved));
        Assert.Equal(4, ranges.Count);
        held.SetResult();
        await Expect(bay.At("sync")).Not.ToContainTextAsync("to send", new() { Timeout = 60_000 });

        // The piece that was cut off came once more; none that had arrived did.
        var large = ranges.Where(range => range.Length == ranges.Max(r => r.Length)).Select(range => range.From!.Value).ToList();
        Assert.Equal(large.Distinct().Count() + 1, large.Count);
        Assert.Equal(large.Order(), large);

        // The job as a table: a row for each entry, the photo named by its hash.
        await bay.At("tab-account").ClickAsync();
        var download = await bay.Page.RunAndWaitForDownloadAsync(() => bay.At("export-table").ClickAsync());
        var table = await File.ReadAllLinesAsync((await download.PathAsync())!, ct);
        Assert.Equal("\"at\",\"by\",\"what\",\"said\",\"taken_back\"", table[0]);
        Assert.Contains(table, row => row.Contains("\"Photo\"", StringComparison.Ordinal) && row.Contains("Bay Tester", StringComparison.Ordinal));

        // Another device has it.
        await using var desk = await bay.Beside(1440, 900);
        await desk.ComeIn();
        await desk.Page.Locator($"a[href='job/{job}']").ClickAsync();
        var picture = desk.At("photos").Locator("[data-test=picture]");
        await Expect(picture).ToBeVisibleAsync(Patient);
        await desk.At("photo").ClickAsync();
        var shown = desk.At("photo-sheet").Locator("[data-test=picture]");
        await Expect(shown).ToBeVisibleAsync(Patient);
        Assert.Equal("1600 x 1200", await shown.EvaluateAsync<string>("async picture => { await picture.decode(); return `${picture.naturalWidth} x ${picture.naturalHeight}`; }"));
        await Expect(desk.At("photo-sheet")).ToContainTextAsync("Bay Tester");
        await IsSound(desk, "a photo large");
    }

    [Fact]
    public async Task What_is_no_picture_is_told_and_nothing_is_recorded_and_a_photo_can_be_taken_back()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        // Before the yes nothing is in hand: the photo is of the job.
        await bay.At("job-line").Filter(new LocatorFilterOptions { HasText = "sprayer" }).ClickAsync();
        await bay.TakePhoto();
        await Expect(bay.At("undo")).ToContainTextAsync("Photo", new() { Timeout = 60_000 });
        await bay.At("tab-account").ClickAsync();
        await bay.At("photo").ClickAsync();
        await Expect(bay.At("photo-sheet")).ToContainTextAsync("The job");
        await bay.At("photo-sheet-close").ClickAsync();
        await bay.At("tab-now").ClickAsync();
        await bay.At("undo").ClickAsync();
        await Expect(bay.At("picture")).ToHaveCountAsync(0);

        await bay.At("agree-who").FillAsync("The invented owner");
        await bay.At("agree").ClickAsync();
        await bay.At("step").WaitForAsync();
        await bay.At("camera-file").SetInputFilesAsync(new FilePayload { Name = "notes.jpg", MimeType = "image/jpeg", Buffer = "not a picture"u8.ToArray() });
        await Expect(bay.At("camera-fault")).ToContainTextAsync("not a picture");
        await IsSound(bay, "no picture");
        await bay.At("camera-fault").GetByRole(AriaRole.Button).ClickAsync();
        Assert.Equal(0, await bay.At("picture").CountAsync());

        await bay.TakePhoto();
        await Expect(bay.At("undo")).ToContainTextAsync("Photo", new() { Timeout = 60_000 });
        await Expect(bay.At("step").Locator("[data-test=picture]")).ToBeVisibleAsync(Patient);
        await bay.At("undo").ClickAsync();
        await Expect(bay.At("picture")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task A_photo_that_the_server_will_not_take_is_told_until_it_does()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        await bay.Page.RouteAsync(Pieces, route => route.Request.Method == "PUT"
            ? route.FulfillAsync(new RouteFulfillOptions { Status = 400, ContentType = "application/problem+json", Body = """{"detail":"It is not to its liking."}""" })
            : route.ContinueAsync());
        await bay.TakePhoto();
        var told = bay.Page.GetByText("The server did not take a photo");
        await Expect(told.First).ToContainTextAsync("not to its liking", new() { Timeout = 60_000 });
        await bay.Page.ReloadAsync();
        await Expect(told.First).ToBeVisibleAsync(Patient);
        await Expect(bay.At("step").Locator("[data-test=picture]")).ToBeVisibleAsync(Patient);
        await IsSound(bay, "a photo is not taken by the server");
    }

    [Fact]
    public async Task A_device_from_before_there_were_photos_keeps_what_it_has()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.Page.GotoAsync(new Uri(bay.Server.Address, "health").ToString());
        // As store.js made it until then.
        await bay.Page.EvaluateAsync(
            """
            () => new Promise((done, failed) => {
                const opening = indexedDB.open('lastoff', 1);
                opening.onerror = () => failed(opening.error);
                opening.onupgradeneeded = () => {
                    const entries = opening.result.createObjectStore('entries', { keyPath: 'id' });
                    entries.createIndex('job', 'job');
                    entries.createIndex('waiting', 'waiting');
                    entries.createIndex('place', ['job', 'device', 'seq'], { unique: true });
                    opening.result.createObjectStore('jobs', { keyPath: 'id' });
                    opening.result.createObjectStore('maps', { keyPath: 'name' });
                    const settings = opening.result.createObjectStore('settings');
                    settings.put('Bay Tester', 'name');
                    settings.put('device-from-before', 'device');
                };
                opening.onsuccess = () => {
                    opening.result.close();
                    done();
                };
            })
            """);
        await bay.Page.GotoAsync(bay.Server.Address.ToString());
        await bay.OpenWaitingJob("sprayer");
        await bay.TakePhoto();
        await Expect(bay.At("step").Locator("[data-test=picture]")).ToBeVisibleAsync(Patient);
        var job = new Uri(bay.Page.Url).Segments[^1];
        await Until(async () => LedgerFile.Read(await bay.Server.Client.GetStringAsync($"/api/jobs/{job}/ledger", TestContext.Current.CancellationToken), "server").Entries
            .Any(entry => entry is { Device: "device-from-before", Kind: ActKinds.PhotoTaken }));
    }

    private static Task Until(Func<bool> holds) => Until(() => Task.FromResult(holds()));

    private static async Task Until(Func<Task<bool>> holds)
    {
        for (var tries = 0; !await holds(); tries++)
        {
            Assert.True(tries < 600, "It did not come to that within a minute.");
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
    }
}
