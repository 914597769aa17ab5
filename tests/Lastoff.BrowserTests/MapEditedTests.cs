using System.Net.Http.Json;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Lastoff.Core.Ledger;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>A map that is edited, offline too, while a job stands on its text.</summary>
public class MapEditedTests
{
    private const string Name = "orchard-sprayer-pump";

    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_map_saved_offline_is_sent_later_seen_on_a_second_device_and_leaves_the_open_job_as_it_is()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        var asked = await bay.Asked();
        var steps = await Facts(bay);
        var job = bay.Page.Url;
        var first = await bay.Server.Client.GetStringAsync($"/api/maps/{Name}", Cancel);
        await Expect(bay.At("sync")).ToHaveAttributeAsync("data-state", "sent");
        await bay.SetOffline(true);
        // Another title, and every work longer by ten minutes or more.
        var edited = string.Join('\n', first.Split('\n').Select(line => line.StartsWith("title:", StringComparison.Ordinal) ? "title: Edited in the bay" : Regex.Replace(line, @"(?<=min: )\d", "1$0")));
        await bay.Page.EvaluateAsync(
            "async ([text, map]) => await (await import('/store.js')).keepSavedText(text, map)",
            new[]
            {
                JsonSerializer.Serialize(new { hash = Entry.Sha256(edited), name = Name, yaml = edited, by = "Bay Tester", editedFrom = Entry.Sha256(first), waiting = 1 }),
                JsonSerializer.Serialize(new { name = Name, title = "Edited in the bay", invented = true, hash = Entry.Sha256(edited) }),
            });
        await bay.Page.ReloadAsync();
        Assert.Equal(asked, await bay.Asked());
        Assert.Equal(steps, await Facts(bay));
        await bay.Page.GotoAsync(new Uri(bay.Server.Address, "open").ToString());
        await Expect(bay.At($"map-{Name}").Locator("xpath=..")).ToContainTextAsync("Edited in the bay");
        await bay.At($"map-{Name}").CheckAsync();
        await bay.At("goal-upper-diaphragm").CheckAsync();
        await bay.At("machine").FillAsync("Invented second sprayer");
        await bay.At("cause").FillAsync("Invented");
        await bay.At("open-submit").ClickAsync();
        await bay.At("agree-who").WaitForAsync();
        var second = new Uri(bay.Page.Url).Segments[^1];

        await bay.SetOffline(false);
        await Expect(bay.At("sync")).ToHaveAttributeAsync("data-state", "sent", new() { Timeout = 60_000 });
        Assert.Equal(edited, await bay.Server.Client.GetStringAsync($"/api/maps/{Name}", Cancel));
        Assert.Equal(Entry.Sha256(edited), await StandsOn(bay, second));
        Assert.Equal(Entry.Sha256(first), await StandsOn(bay, new Uri(job).Segments[^1]));

        await using var other = await bay.Beside(390, 844);
        await other.ComeIn();
        await other.Page.GotoAsync(job);
        Assert.Equal(asked, await other.Asked());
        Assert.Equal(steps, await Facts(other));
        await other.Page.GotoAsync(new Uri(bay.Server.Address, "open").ToString());
        await Expect(other.At($"map-{Name}").Locator("xpath=..")).ToContainTextAsync("Edited in the bay");
    }

    /// <summary>What the step on the screen says, its minutes too.</summary>
    private static Task<string> Facts(Bay bay) => bay.At("step").InnerTextAsync();

    private static async Task<string?> StandsOn(Bay bay, string job) =>
        JobOpened.In(EntryLine.ReadAll((await bay.Server.Client.GetFromJsonAsync<JsonObject>($"/api/jobs/{job}/entries", Cancel))!["lines"]!.AsArray().Select(line => (string)line!)))!.MapSha256;
}
