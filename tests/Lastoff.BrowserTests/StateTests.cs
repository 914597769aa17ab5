using static Lastoff.BrowserTests.Soundness;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>What a screen shows while there is nothing to show, and the way on from there.</summary>
public class StateTests
{
    [Fact]
    public async Task A_workshop_in_which_nothing_is_yet_says_how_to_begin()
    {
        await using var bay = await Bay.OpenEmpty(390, 844);
        await bay.Page.GotoAsync(bay.Server.Address.ToString());
        await bay.At("person-name").FillAsync("Bay Tester");
        await bay.At("person-begin").ClickAsync();
        await Expect(bay.Page.Locator(".empty")).ToContainTextAsync("No job yet");
        await IsSound(bay, "no job yet");
        await bay.At("open-job").ClickAsync();
        await bay.At("map-none").WaitForAsync();
        await IsSound(bay, "open a job, no map yet");
        foreach (var (link, screen) in new[] { ("maps", "no maps yet"), ("learn", "no recordings yet"), ("prices", "no prices yet"), ("rates", "no rates yet") })
        {
            await bay.Page.GotoAsync($"{bay.Server.Address}{link}");
            await Expect(bay.Page.Locator("[aria-busy=true]")).ToHaveCountAsync(0);
            await Expect(bay.Page.Locator("h1")).ToBeVisibleAsync();
            await IsSound(bay, screen);
        }
    }

    [Fact]
    public async Task While_the_app_comes_it_shows_how_much_of_it_has_come()
    {
        await using var bay = await Bay.Open(390, 844, isNew: true);
        var held = new TaskCompletionSource();
        await bay.Page.RouteAsync("**/dotnet.native.wasm", async route =>
        {
            await held.Task;
            await route.ContinueAsync();
        });
        var opened = bay.Page.GotoAsync(bay.Server.Address.ToString());
        await Expect(bay.Page.Locator(".opening")).ToContainTextAsync("Opening the book");
        // The rest of it comes while this one file is held back.
        for (var tries = 0; await bay.Page.EvaluateAsync<double>("parseFloat(getComputedStyle(document.documentElement).getPropertyValue('--blazor-load-percentage')) || 0") < 50; tries++)
        {
            Assert.True(tries < 200, "It never said how much had come.");
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }

        await IsSound(bay, "opening");
        held.SetResult();
        await opened;
        await bay.At("person-name").WaitForAsync();
    }

    [Fact]
    public async Task An_address_that_leads_to_nothing_leads_back()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.Page.GotoAsync($"{bay.Server.Address}an-old-link");
        await Expect(bay.Page.Locator("h1")).ToHaveTextAsync("There is no page here");
        await IsSound(bay, "no such page");
        await bay.Page.GotoAsync($"{bay.Server.Address}job/{Guid.NewGuid()}");
        await Expect(bay.Page.Locator("h1")).ToHaveTextAsync("This job is not here");
        await IsSound(bay, "no such job");
        await bay.Page.GotoAsync($"{bay.Server.Address}an-old-link");
        await bay.At("to-jobs").ClickAsync();
        await bay.At("job-line").First.WaitForAsync();
    }

    [Fact]
    public async Task A_newer_version_is_offered_and_taken_when_the_person_says_so()
    {
        await using var bay = await Bay.Open(390, 844);
        await using var door = new NewerVersion(bay.Server.Address);
        await bay.Page.GotoAsync(door.Address.ToString());
        await bay.At("person-name").FillAsync("Bay Tester");
        await bay.At("person-begin").ClickAsync();
        await bay.Page.EvaluateAsync("navigator.serviceWorker.ready.then(() => true)");
        await Expect(bay.At("new-version").Locator("button")).ToHaveCountAsync(0);

        door.Publish();
        await bay.Page.ReloadAsync();
        await Expect(bay.At("new-version")).ToContainTextAsync("A new version is ready.");
        await bay.At("job-line").First.WaitForAsync();
        await IsSound(bay, "a new version is ready");
        await bay.At("new-version").Locator("button").ClickAsync();
        // The old one is gone, and what was written is still there.
        await Expect(bay.At("new-version").Locator("button")).ToHaveCountAsync(0);
        await bay.At("job-line").First.WaitForAsync();
        Assert.StartsWith("lastoff-newer-", Assert.Single(await CachesAsync(bay)), StringComparison.Ordinal);
    }

    private static Task<string[]> CachesAsync(Bay bay) => bay.Page.EvaluateAsync<string[]>("caches.keys()");
}
