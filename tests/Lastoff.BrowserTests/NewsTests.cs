using System.Diagnostics;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Program;

namespace Lastoff.BrowserTests;

/// <summary>What a colleague records stands on this screen at once, not only when this device next asks by itself.</summary>
public class NewsTests
{
    /// <summary>Far below the 15 s between two askings; three times running it would come true by chance one time in fifteen.</summary>
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(6);

    [Fact]
    public async Task A_step_done_on_another_phone_moves_this_one_on()
    {
        await using var bay = await Bay.Open(390, 844);
        await bay.ComeIn();
        await bay.OpenWaitingJob("sprayer");
        var net = OperationNet.From(MapReader.Read(await File.ReadAllTextAsync(LastoffProgram.Demo("orchard-sprayer-pump.map.yaml"), TestContext.Current.CancellationToken), "pump").Map!);
        var id = new Uri(bay.Page.Url).Segments[^1];
        for (var step = 0; step < 3; step++)
        {
            var asked = (await bay.Asked())!.Value;
            await bay.Page.Locator("[data-test=sync][data-state=sent]").WaitForAsync();
            var ledger = LedgerFile.Read(await bay.Server.Client.GetStringAsync($"/api/jobs/{id}/ledger", TestContext.Current.CancellationToken), "ledger");
            var kind = asked.Kind switch { "MakeSafe" => OperationKind.MakeSafe, "Undo" => OperationKind.Undo, "LayAside" => OperationKind.Aside, _ => OperationKind.Off };
            var decision = Job.From(net, ledger.Entries).Decide(new Moved(kind.Out(), asked.Target), new Pen("another-phone", "A colleague", DateTimeOffset.UtcNow, Guid.NewGuid().ToByteArray()[..10]));
            var watch = Stopwatch.StartNew();
            await bay.Server.Client.PostAsync($"/api/jobs/{id}/entries", new StringContent(decision.Entry!.Line), TestContext.Current.CancellationToken);
            await bay.Page.WaitForFunctionAsync(
                "asked => { const s = document.querySelector('[data-test=step]'); return s && s.dataset.step + ' ' + s.dataset.target !== asked; }", $"{asked.Kind} {asked.Target}");
            Assert.InRange(watch.Elapsed, TimeSpan.Zero, Soon);
        }
    }
}
