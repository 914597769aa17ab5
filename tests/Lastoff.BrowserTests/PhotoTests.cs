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
        await bay.OpenWaitingJob("sprayer");
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
