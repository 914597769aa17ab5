using System.Text.Json.Nodes;

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

        var job = new Uri(bay.Page.Url).Segments[^1];
        var before = await Ledger(bay, job, entries: 6);
        await bay.Server.LoseEverything();
        Assert.DoesNotContain(job, await Jobs(bay));

        // Nothing is done on the device: it finds out by itself.
        var after = await Ledger(bay, job, entries: 6);
        Assert.Empty(before.Except(after));
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
