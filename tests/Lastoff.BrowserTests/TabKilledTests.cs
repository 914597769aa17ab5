using System.Collections.Concurrent;
using System.Globalization;
using Lastoff.Core.Ledger;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>The tab is killed at random moments while it writes: what the screen said was recorded is recorded, once. LASTOFF_TAB_KILLS says how often, for a long run.</summary>
public class TabKilledTests
{
    private const int Seed = 20;

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task What_a_killed_tab_had_recorded_is_there_and_nothing_is_there_twice(bool isWithoutMap)
    {
        var kills = (Environment.GetEnvironmentVariable("LASTOFF_TAB_KILLS") is { } given ? int.Parse(given, CultureInfo.InvariantCulture) : 4) / 2;
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        if (isWithoutMap)
        {
            await bay.OpenJobWithoutMap();
        }
        else
        {
            await bay.OpenWaitingJob("sprayer");
        }

        var address = bay.Page.Url;
        var job = new Uri(address).Segments[^1];
        var context = bay.Spend();
        var told = new ConcurrentQueue<string>();
        await context.ExposeFunctionAsync("told", (string text) => told.Enqueue(text));
        await bay.Page.CloseAsync();

        var random = new Random(Seed);
        var (promised, tapped) = (0, 0);
        for (var kill = 0; kill < kills; kill++)
        {
            var page = await context.NewPageAsync();
            await page.GotoAsync(address);
            await page.Locator("[data-test=undo]").WaitForAsync();
            await Watch(page);
            var died = new TaskCompletionSource();
            page.Crash += (_, _) => died.TrySetResult();
            // On a slow machine it lives until it has written something.
            var (end, latest) = (DateTime.UtcNow.AddMilliseconds(random.Next(100, 2500)), DateTime.UtcNow.AddSeconds(60));
            while (DateTime.UtcNow < end || (told.Count < 3 && DateTime.UtcNow < latest))
            {
                tapped += await Tap(page, random, isWithoutMap);
                await Task.Delay(random.Next(60), TestContext.Current.CancellationToken);
            }

            // And one more tap, so that it dies in the middle of writing.
            for (var tries = 0; tries < 50 && await Tap(page, random, isWithoutMap) is var taps; tries++)
            {
                tapped += taps;
                if (taps == 1)
                {
                    break;
                }
            }

            await Task.Delay(random.Next(40), TestContext.Current.CancellationToken);
            // It never answers: there is nobody left to do so.
            _ = (await context.NewCDPSessionAsync(page)).SendAsync("Page.crash");
            await died.Task.WaitAsync(TimeSpan.FromSeconds(30), TestContext.Current.CancellationToken);
            await page.CloseAsync();
            promised += told.Count;
            told.Clear();
        }

        // Once more, and now everything is sent.
        var last = await context.NewPageAsync();
        await last.GotoAsync(address);
        await Expect(last.Locator("[data-test=sync]")).ToHaveAttributeAsync("data-state", "sent", new() { Timeout = 60_000 });
        var device = LedgerFile.Read(await Exported(last), "device");
        var server = LedgerFile.Read(await bay.Server.Client.GetStringAsync($"/api/jobs/{job}/ledger", TestContext.Current.CancellationToken), "server");
        Assert.Null(device.Fault);
        Assert.Null(server.Fault);
        Assert.Equal(device.Entries.Select(entry => entry.Line), server.Entries.Select(entry => entry.Line));
        // The opening was there before, and with a map the yes.
        var written = device.Entries.Count - (isWithoutMap ? 1 : 2);
        Assert.Equal(device.Entries.Count, device.Entries.Select(entry => entry.Id).Distinct().Count());
        Assert.True(promised > 2 * kills, $"Only {promised} acts were recorded.");
        Assert.InRange(written, promised, tapped);
        TestContext.Current.SendDiagnosticMessage($"{kills} kills, {tapped} taps, {promised} shown as recorded, {written} in the ledger: 0 lost, 0 twice.");
    }

    /// <summary>Forward as a rule, and back now and then: what is taken back is written, too. 0 when there was nothing to tap.</summary>
    private static Task<int> Tap(IPage page, Random random, bool isWithoutMap) => page.EvaluateAsync<int>(
        """
        async ([act, line]) => {
            const field = document.querySelector('[data-test=record-line]');
            if (act === 'record-done' && field) {
                field.value = line;
                field.dispatchEvent(new Event('input', { bubbles: true }));
                await new Promise(requestAnimationFrame);
            }
            document.querySelector('[data-test=tray-choice]:not(:has([aria-pressed=true])) [data-test=tray-none]')?.click();
            const button = document.querySelector(`[data-test=${act}]`);
            // The yes itself stays: without it there is nothing to do.
            if (!button || button.disabled || button.textContent.includes('Yes from')) {
                return 0;
            }
            button.click();
            return 1;
        }
        """,
        new[] { random.Next(12) == 0 ? "undo" : isWithoutMap ? "record-done" : "done", $"two 10 mil bolts off cover {random.Next(1_000_000)}" });

    /// <summary>Tells of every act that the screen says is recorded.</summary>
    private static Task Watch(IPage page) => page.EvaluateAsync(
        """
        () => {
            const said = () => document.querySelector('[data-test=recorded]')?.textContent ?? '';
            let last = said();
            new MutationObserver(() => {
                const now = said();
                if (now !== last && now.startsWith('Recorded')) {
                    told(now);
                }
                last = now || last;
            }).observe(document.body, { subtree: true, childList: true, characterData: true });
        }
        """);

    private static async Task<string> Exported(IPage page)
    {
        await page.Locator("[data-test=tab-account]").ClickAsync();
        var download = await page.RunAndWaitForDownloadAsync(() => page.Locator("[data-test=export]").ClickAsync());
        return await File.ReadAllTextAsync((await download.PathAsync())!, TestContext.Current.CancellationToken);
    }
}
