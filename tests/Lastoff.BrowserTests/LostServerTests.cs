using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;

namespace Lastoff.BrowserTests;

/// <summary>A server that is set up anew gets what it lost from the devices.</summary>
public class LostServerTests
{
    [Fact]
    public async Task Entries_that_were_all_sent_are_sent_again_to_a_server_that_lost_them()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        for (var step = 0; step < 4; step++)
        {
            await bay.DoIt((await bay.Asked())!.Value);
        }

        await bay.TakePhoto();
        var job = new Uri(bay.Page.Url).Segments[^1];
        var before = await Ledger(bay, job, entries: 7);
        await Photos(bay, before[^1]);
        await bay.Server.LoseEverything();
        Assert.DoesNotContain(job, await Jobs(bay));

        // Nothing is done on the device: it finds out by itself.
        var after = await Ledger(bay, job, entries: 7);
        Assert.Empty(before.Except(after));
        await Photos(bay, before[^1]);
    }

    [Fact]
    public async Task A_server_that_went_back_to_a_backup_gets_what_it_lacks_even_where_others_have_filled_the_gap()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        await bay.DoIt((await bay.Asked())!.Value);
        var job = new Uri(bay.Page.Url).Segments[^1];
        var opening = (await Ledger(bay, job, entries: 3))[0];
        await bay.Server.StopAndBackUp();
        for (var step = 0; step < 3; step++)
        {
            await bay.DoIt((await bay.Asked())!.Value);
        }

        var before = await Ledger(bay, job, entries: 6);
        await bay.SetOffline(true);
        await bay.Server.GoBack();
        Assert.Equal(3, (await Ledger(bay, job, entries: 3)).Count);
        // As many entries as the device knew of, and more: by their number alone nothing seems to be missing.
        await bay.Server.Client.PostAsync($"/api/jobs/{job}/entries", new StringContent(Notes(opening, 5)), TestContext.Current.CancellationToken);
        await bay.SetOffline(false);
        Assert.Empty(before.Except(await Ledger(bay, job, entries: 11)));
    }

    /// <summary>Waits until the server has both pictures that the entry names.</summary>
    private static async Task Photos(Bay bay, string line)
    {
        var taken = Assert.IsType<PhotoTaken>(ActKinds.Read(EntryLine.TryRead(line, out var entry, out _) ? entry! : throw new InvalidOperationException(line), out _));
        foreach (var hash in (string[])[taken.Photo, taken.Thumbnail])
        {
            for (var tries = 0; !(await bay.Server.Client.GetAsync($"/api/photos/{hash}", TestContext.Current.CancellationToken)).IsSuccessStatusCode; tries++)
            {
                Assert.True(tries < 180, "The server never had the photo.");
                await Task.Delay(500, TestContext.Current.CancellationToken);
            }
        }
    }

    private static string Notes(string opening, int count)
    {
        Entry? last = null;
        var latest = EntryLine.TryRead(opening, out var opened, out _) ? opened!.Id : throw new InvalidOperationException(opening);
        var notes = new List<Entry>();
        for (var note = 0; note < count; note++)
        {
            latest = EntryId.Next(DateTimeOffset.UtcNow, latest, new byte[10]);
            notes.Add(last = EntryLine.Write(new Noted($"note {note}"), latest, "another-phone", DateTimeOffset.UtcNow, "Another Tester", last));
        }

        return LedgerFile.Write(notes);
    }

    private static async Task<IReadOnlyList<string>> Jobs(Bay bay) =>
        [.. JsonNode.Parse(await bay.Server.Client.GetStringAsync("/api/jobs", TestContext.Current.CancellationToken))!.AsArray().Select(j => (string)j!["id"]!)];

    /// <summary>The job's lines on the server, once it has this many; the device looks every 15 s.</summary>
    private static async Task<IReadOnlyList<string>> Ledger(Bay bay, string job, int entries)
    {
        for (var tries = 0; tries < 180; tries++)
        {
            var page = JsonNode.Parse(await bay.Server.Client.GetStringAsync($"/api/jobs/{job}/entries", TestContext.Current.CancellationToken))!;
            var lines = page["lines"]!.AsArray().Select(l => (string)l!).ToList();
            if (lines.Count >= entries)
            {
                return lines;
            }

            await Task.Delay(500, TestContext.Current.CancellationToken);
        }

        throw new TimeoutException($"The server never had {entries} entries of the job.");
    }
}
