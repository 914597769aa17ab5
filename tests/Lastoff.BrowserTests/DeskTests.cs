using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Microsoft.Playwright;
using static Lastoff.BrowserTests.Soundness;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>What the owner reads at the desk: what each job waits for, a job's plan with all that can be asked of it, and the backups. On a large screen and on a phone.</summary>
public class DeskTests
{
    [Theory]
    [InlineData(1440, 900)]
    [InlineData(390, 844)]
    public async Task The_plan_says_its_reasons_its_other_ways_what_else_and_what_two_make_of_it(int width, int height)
    {
        await using var bay = await Bay.Open(width, height);
        await bay.ComeIn();
        await bay.At("job-line").Filter(new LocatorFilterOptions { HasText = "sprayer" }).First.ClickAsync();
        if (width < 600)
        {
            await bay.At("tab-depth").ClickAsync();
        }

        await bay.At("to-plan").ClickAsync();
        await Expect(bay.At("plan-takes")).ToContainTextAsync("Nine times in ten");
        await Expect(bay.At("way-out").Locator("li").First).ToContainTextAsync(".");
        await Expect(bay.At("two-hands")).ToContainTextAsync("Two people", new LocatorAssertionsToContainTextOptions { Timeout = 180_000 });

        // Of each place where the map offers several ways one is taken, and each other has its minutes, or none goes that way.
        var forks = bay.At("fork");
        Assert.True(await forks.CountAsync() > 0);
        foreach (var fork in await forks.AllAsync())
        {
            await Expect(fork.Locator(".fork-more").Filter(new LocatorFilterOptions { HasText = "taken in this plan" })).ToHaveCountAsync(1);
            foreach (var other in await fork.Locator("li:not(.taken) .fork-more").AllInnerTextsAsync())
            {
                Assert.Matches("more|less|no plan", other);
            }
        }

        var saved = (await bay.At("extras").Locator("tbody tr td:last-child").AllInnerTextsAsync()).Select(int.Parse).ToList();
        Assert.Equal(saved.OrderDescending(), saved);
        await Expect(bay.At("hands-bars").Locator("rect.work").First).ToBeVisibleAsync();
        await IsSound(bay, "plan");
        await bay.Unfold("who-when");
        await Expect(bay.At("who-when").Locator("tbody tr").First).ToBeVisibleAsync();
        await IsSound(bay, "plan who when");
        // The keyboard comes to everything: the way on from the heading leads to the parts of the page.
        await bay.Page.Locator(".on-page a[href$='#two']").FocusAsync();
        await bay.Page.Keyboard.PressAsync("Enter");
        await Expect(bay.Page.Locator("#two")).ToBeInViewportAsync();
    }

    [Fact]
    public async Task The_list_of_jobs_says_what_each_waits_for_and_whom()
    {
        await using var bay = await Bay.Open(1440, 900);
        await bay.ComeIn();
        await Expect(Waits(bay, "van")).ToContainTextAsync("The customer: yes to the work; no price is made yet");
        await bay.OpenWaitingJob("sprayer");
        await bay.DoIt((await bay.Asked())!.Value);
        await bay.Page.GotoAsync(bay.Server.Address.ToString());
        await Expect(Waits(bay, "sprayer")).ToContainTextAsync("The mechanic: Bay Tester was last at it");

        // A colleague elsewhere: what is ordered, and a photo that has not come yet.
        await Write(bay, "orchard-sprayer-pump",
            new ItemTold("Upper diaphragm", ItemState.Ordered, "at the counter") { Awaited = DateOnly.FromDateTime(DateTime.Today.AddDays(3)) },
            new PhotoTaken(new string('a', 64), new string('b', 64)));
        await Expect(Waits(bay, "sprayer")).ToContainTextAsync("“Upper diaphragm”: ordered, awaited on");
        await Expect(Waits(bay, "sprayer")).ToContainTextAsync("A photo that is still on the device of Colleague");
        await Expect(Line(bay, "sprayer").Locator("[data-test=job-opens]")).ToContainTextAsync("“Upper diaphragm” has not been reached.");

        await IsSound(bay, "jobs that wait");
    }

    [Fact]
    public async Task Backups_are_listed_and_one_is_made()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.At("to-backups").ClickAsync();
        await bay.At("backup-now").ClickAsync();
        await Expect(bay.At("backup-told")).ToContainTextAsync(new System.Text.RegularExpressions.Regex("Made: lastoff-|Nothing is new"));
        await Write(bay, "light-van", new Noted("Something new"));
        await bay.At("backup-now").ClickAsync();
        await Expect(bay.At("backup-told")).ToContainTextAsync("Made: lastoff-");
        var made = (await bay.At("backup-told").InnerTextAsync())["Made: ".Length..];
        await Expect(bay.At("backups").Locator("tbody tr").First).ToContainTextAsync(made);
        await Expect(bay.At("restore-command")).ToContainTextAsync(made);
        Assert.True(File.Exists(Path.Combine(bay.Server.Data, "backups", made)));
        await IsSound(bay, "backups");
    }

    private static ILocator Line(Bay bay, string words) => bay.At("job-line").Filter(new LocatorFilterOptions { HasText = words });

    private static ILocator Waits(Bay bay, string words) => Line(bay, words).Locator("[data-test=job-waits]");

    /// <summary>Writes on another device in the job that waits on a map.</summary>
    private static async Task Write(Bay bay, string map, params IReadOnlyList<Act> acts)
    {
        var cancel = TestContext.Current.CancellationToken;
        var id = (string)(await bay.Server.Client.GetFromJsonAsync<JsonArray>("/api/jobs", cancel))!.Single(job => (string)job!["map"]! == map)!["id"]!;
        var ledger = await bay.Server.Client.GetStringAsync($"/api/jobs/{id}/ledger", cancel);
        var net = OperationNet.From(MapReader.Read(await bay.Server.Client.GetStringAsync($"/api/maps/{map}", cancel), map).Map!);
        var job = Job.From(net, EntryLine.ReadAll(ledger.Split('\n', StringSplitOptions.RemoveEmptyEntries)));
        var had = job.Entries.Count;
        foreach (var act in acts)
        {
            job = job.With(job.Decide(act, new Pen("device-of-a-colleague", "Colleague", DateTimeOffset.UtcNow, Guid.NewGuid().ToByteArray()[..10])).Entry!);
        }

        var lines = new StringContent(string.Join('\n', job.Entries.Skip(had).Select(entry => entry.Line)));
        (await bay.Server.Client.PostAsync($"/api/jobs/{id}/entries", lines, cancel)).EnsureSuccessStatusCode();
    }
}
