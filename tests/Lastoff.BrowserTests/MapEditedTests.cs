using System.Net.Http.Json;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
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
        await SaveAsync(bay, edited, first, 1);
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

        // Who edits the text of before is asked which of the two is to be the newest.
        var late = edited.Replace("title: Edited in the bay", "title: Edited too late", StringComparison.Ordinal);
        await SaveAsync(other, late, first, 1);
        await other.Page.GotoAsync(bay.Server.Address.ToString());
        await Expect(other.At("map-refused")).ToBeVisibleAsync(new() { Timeout = 60_000 });
        await Soundness.IsSound(other, "map refused");
        Assert.Equal(edited, await bay.Server.Client.GetStringAsync($"/api/maps/{Name}", Cancel));
        await other.At("map-all-the-same").ClickAsync();
        await Expect(other.At("sync")).ToHaveAttributeAsync("data-state", "sent", new() { Timeout = 60_000 });
        Assert.Equal(late, await bay.Server.Client.GetStringAsync($"/api/maps/{Name}", Cancel));
    }

    /// <summary>The device's records as version 2 kept them: a map with its text, a job that names the map alone, an entry that waits.</summary>
    [Fact]
    public async Task What_a_device_kept_before_texts_had_hashes_is_moved_over_and_still_sent()
    {
        await using var bay = await Bay.Open(390, 844);
        var yaml = (await bay.Server.Client.GetStringAsync($"/api/maps/{Name}", Cancel)) + "# as it was on this device\n";
        var opening = Job.From(OperationNet.From(MapReader.Read(yaml, Name).Map!), []).Decide(
            new JobOpened(Name, "Invented sprayer from before", "It drips", "A seal", ["upper-diaphragm"], []),
            new Pen("old-device", "Bay Tester", DateTimeOffset.UtcNow, new byte[10])).Entry!;
        await bay.Page.GotoAsync(new Uri(bay.Server.Address, "health").ToString());
        await bay.Page.EvaluateAsync(
            """
            ([map, job, entry]) => new Promise((done, failed) => {
                const opening = indexedDB.open('lastoff', 2);
                opening.onerror = () => failed(opening.error);
                opening.onupgradeneeded = () => {
                    const db = opening.result;
                    const entries = db.createObjectStore('entries', { keyPath: 'id' });
                    entries.createIndex('job', 'job');
                    entries.createIndex('waiting', 'waiting');
                    entries.createIndex('place', ['job', 'device', 'seq'], { unique: true });
                    db.createObjectStore('jobs', { keyPath: 'id' });
                    db.createObjectStore('maps', { keyPath: 'name' });
                    db.createObjectStore('settings');
                    db.createObjectStore('photos', { keyPath: 'hash' }).createIndex('waiting', 'waiting');
                };
                opening.onsuccess = () => {
                    const writing = opening.result.transaction(['entries', 'jobs', 'maps'], 'readwrite');
                    writing.objectStore('maps').put(JSON.parse(map));
                    writing.objectStore('jobs').put(JSON.parse(job));
                    writing.objectStore('entries').put(JSON.parse(entry));
                    writing.oncomplete = () => { opening.result.close(); done(); };
                };
            })
            """,
            new[]
            {
                JsonSerializer.Serialize(new { name = Name, title = "From before", invented = true, yaml }),
                JsonSerializer.Serialize(new { id = opening.Id, map = Name }),
                JsonSerializer.Serialize(new { id = opening.Id, job = opening.Id, device = opening.Device, seq = opening.Seq, line = opening.Line, waiting = 1 }),
            });
        await bay.ComeInFirst();
        await Expect(bay.At("sync")).ToHaveAttributeAsync("data-state", "sent", new() { Timeout = 60_000 });
        var lines = (await bay.Server.Client.GetFromJsonAsync<JsonObject>($"/api/jobs/{opening.Id}/entries", Cancel))!["lines"]!.AsArray();
        Assert.Equal(opening.Line, (string)Assert.Single(lines)!);
        await bay.OpenWaitingJob("sprayer from before");
        Assert.NotNull(await bay.Asked());
        var text = await bay.Page.EvaluateAsync<string>("async hash => await (await import('/store.js')).textOf(hash)", Entry.Sha256(yaml));
        Assert.Equal(yaml, (string)JsonNode.Parse(text)!["yaml"]!);
    }

    /// <summary>Saves a map on the device as the editor does.</summary>
    private static Task SaveAsync(Bay bay, string yaml, string editedFrom, int number) => bay.Page.EvaluateAsync(
        "async ([text, map]) => await (await import('/store.js')).keepSavedText(text, map)",
        new[]
        {
            JsonSerializer.Serialize(new { hash = Entry.Sha256(yaml), name = Name, yaml, by = "Bay Tester", editedFrom = Entry.Sha256(editedFrom), waiting = number }),
            JsonSerializer.Serialize(new { name = Name, title = "Edited in the bay", invented = true, hash = Entry.Sha256(yaml) }),
        });

    /// <summary>What the step on the screen says, its minutes too.</summary>
    private static Task<string> Facts(Bay bay) => bay.At("step").InnerTextAsync();

    private static async Task<string?> StandsOn(Bay bay, string job) =>
        JobOpened.In(EntryLine.ReadAll((await bay.Server.Client.GetFromJsonAsync<JsonObject>($"/api/jobs/{job}/entries", Cancel))!["lines"]!.AsArray().Select(line => (string)line!)))!.MapSha256;
}
