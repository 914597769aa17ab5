using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Program;
using static Lastoff.BrowserTests.Soundness;
using static Microsoft.Playwright.Assertions;

namespace Lastoff.BrowserTests;

/// <summary>Two people mark one thing differently, one of them offline: the phone asks, in words, and a person settles it.</summary>
public class ContradictionTests
{
    [Fact]
    public async Task What_a_colleague_says_differently_is_asked_on_the_phone_and_settled_there()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        await Expect(bay.At("sync")).ToHaveAttributeAsync("data-state", "sent", new() { Timeout = 60_000 });
        var id = Guid.Parse(new Uri(bay.Page.Url).Segments[^1]);
        var ct = TestContext.Current.CancellationToken;
        var known = LedgerFile.Read(await bay.Server.Client.GetStringAsync($"/api/jobs/{id}/ledger", ct), "server").Entries;

        await bay.SetOffline(true);
        var asked = (await bay.Asked())!.Value;
        Assert.Equal("MakeSafe", asked.Kind);
        await bay.DoIt(asked);

        // Meanwhile the colleague makes it safe, has a look, and restores it.
        var net = OperationNet.From(MapReader.Read(await File.ReadAllTextAsync(LastoffProgram.Demo("orchard-sprayer-pump.map.yaml"), ct), "pump").Map!);
        var colleague = Job.From(net, known);
        foreach (var move in new[] { Move.SupplySafe, Move.SupplyRestored })
        {
            colleague = colleague.With(colleague.Decide(new Moved(move, asked.Target), new Pen("device-of-a-colleague", "Colleague", DateTimeOffset.UtcNow, Guid.NewGuid().ToByteArray()[..10])).Entry!);
        }

        (await bay.Server.Client.PostAsync($"/api/jobs/{id}/entries", new StringContent(LedgerFile.Write(colleague.Entries)), ct)).EnsureSuccessStatusCode();
        await bay.SetOffline(false);
        await Expect(bay.At("open-strip")).ToContainTextAsync("neither had seen", new() { Timeout = 60_000 });
        await bay.At("open-strip").ClickAsync();
        await Expect(bay.At("open-sheet")).ToContainTextAsync("Colleague says restored");
        await Expect(bay.At("open-sheet")).ToContainTextAsync("Bay Tester says made safe");
        await IsSound(bay, "two people say differently");
        await bay.At("open-sheet").GetByLabel("How it is").FillAsync("The pressure is let down, I looked at the gauge");
        await bay.At("settle").ClickAsync();
        await Expect(bay.At("open-sheet")).Not.ToContainTextAsync("neither had seen");
    }
}
