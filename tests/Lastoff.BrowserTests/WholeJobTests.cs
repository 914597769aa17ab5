using System.Text.Json.Nodes;
using Lastoff.Core.Planning;
using Lastoff.Tests.Program;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>
/// The demo jobs, done by thumb up to the handover. The light van is taken up where its new pipe is made fast, or from its first joint with LASTOFF_WHOLE_JOB set, as
/// <c>bench -- browser</c> does.
/// </summary>
public class WholeJobTests
{
    [Fact]
    public async Task The_light_van_comes_home_on_a_phone_that_loses_its_network_half_way()
    {
        // A phone that was never there before has the app from this visit when the network goes.
        await using var bay = await Bay.Open(390, 844, isNew: true);
        var isWhole = Environment.GetEnvironmentVariable("LASTOFF_WHOLE_JOB") is { Length: > 0 };
        if (isWhole)
        {
            await bay.ComeIn();
            await bay.OpenWaitingJob("light van");
        }
        else
        {
            await HalfWay.TakeUp(bay, StepKind.Make, "pipe-flange-bolts");
        }

        var done = new List<(string Kind, string Target)>();
        while (await bay.Asked() is { } asked)
        {
            if (done.Count == 10)
            {
                await bay.SetOffline(true);
            }

            if (done.Count == 20)
            {
                await bay.Page.ReloadAsync();
                Assert.Equal(asked, await bay.Asked());
            }

            await bay.DoIt(asked);
            done.Add(asked);
        }

        Assert.True(done.Count > (isWhole ? 150 : 75), $"Only {done.Count} steps.");
        await Expect(bay.At("sync")).Not.ToHaveAttributeAsync("data-state", "sent");
        await bay.At("hand-over-to").FillAsync("The invented owner");
        await bay.At("hand-over").ClickAsync();
        await Expect(bay.At("act-heading")).ToContainTextAsync("Handed over to");
        var onDevice = await Export(bay);

        await bay.SetOffline(false);
        await Expect(bay.At("sync")).ToHaveAttributeAsync("data-state", "sent", new LocatorAssertionsToHaveAttributeOptions { Timeout = 60_000 });
        var job = JsonNode.Parse(onDevice.Split('\n')[0])!["id"]!;
        var onServer = await bay.Server.Client.GetStringAsync($"/api/jobs/{job}/ledger", TestContext.Current.CancellationToken);
        Assert.Equal(onDevice.Split('\n').Order(), onServer.Split('\n').Order());
        await NothingIsOpen("light-van", onDevice);
        await NothingIsOpen("light-van", onServer);
    }

    [Fact]
    public async Task The_sprayer_is_done_at_the_desk_with_a_mistake_taken_back()
    {
        await using var bay = await Bay.Open(1440, 900);
        await bay.ComeIn();
        await Expect(bay.At("sync")).ToHaveAttributeAsync("data-state", "sent");
        await bay.At("job-line").Filter(new LocatorFilterOptions { HasText = "sprayer" }).ClickAsync();
        await Expect(bay.At("own-times")).ToContainTextAsync("from 3 jobs here, none of them with this map");
        await bay.Page.GoBackAsync();
        await bay.OpenWaitingJob("sprayer");
        var first = (await bay.Asked())!.Value;
        await bay.DoIt(first);
        await bay.At("undo").ClickAsync();
        await Expect(bay.At("step")).ToHaveAttributeAsync("data-target", first.Target);
        while (await bay.Asked() is { } asked)
        {
            await bay.DoIt(asked);
        }

        await bay.At("hand-over-to").FillAsync("The invented owner");
        await bay.At("hand-over").ClickAsync();
        await Expect(bay.At("act-heading")).ToContainTextAsync("Handed over to");
        await NothingIsOpen("orchard-sprayer-pump", await Export(bay));
    }

    internal static async Task<string> Export(Bay bay)
    {
        var download = await bay.Page.RunAndWaitForDownloadAsync(() => bay.At("export").First.ClickAsync());
        return await File.ReadAllTextAsync(await download.PathAsync(), TestContext.Current.CancellationToken);
    }

    private static async Task NothingIsOpen(string map, string ledger)
    {
        var file = Path.GetTempFileName();
        try
        {
            await File.WriteAllTextAsync(file, ledger, TestContext.Current.CancellationToken);
            var ran = await LastoffProgram.Run("standing", LastoffProgram.Demo($"{map}.map.yaml"), file, "--json");
            Assert.Equal("", ran.Error);
            var standing = JsonNode.Parse(ran.Output)!;
            Assert.Empty(standing["open"]!.AsArray());
            Assert.True((bool)standing["handed_over"]!);
            Assert.Equal((int)standing["covers_put_in"]!, (int)standing["covers_taken_out"]!);
        }
        finally
        {
            File.Delete(file);
        }
    }
}
