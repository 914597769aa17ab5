using System.Globalization;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Program;
using Microsoft.Playwright;

namespace Lastoff.BrowserTests;

/// <summary>How long a plan keeps the mechanic waiting. Machines that run tests are busy, so the time is told and only a hang fails. LASTOFF_PLAN_STARTS says how often, for a long run.</summary>
public class PlanTimeTests(ITestOutputHelper output)
{
    private const double Hang_ms = 5000;

    private static readonly int Times = Environment.GetEnvironmentVariable("LASTOFF_PLAN_STARTS") is { } given ? int.Parse(given, CultureInfo.InvariantCulture) : 1;

    /// <summary>From the tap until the step has been painted, and the longest stretch in which the screen answered nothing.</summary>
    private const string Watch = """
        () => {
          const watched = { freeze: 0 };
          window.watched = new Promise((done, failed) => {
            setTimeout(() => failed(new Error(`No step in a minute, but: ${document.body.innerText}`)), 60_000);
            new PerformanceObserver(list => list.getEntries().forEach(task => watched.freeze = Math.max(watched.freeze, task.duration))).observe({ type: 'longtask' });
            addEventListener('click', tap => watched.tap = tap.timeStamp, { capture: true, once: true });
            const look = new MutationObserver(() => {
              if (watched.tap && document.querySelector('[data-test=step]')) {
                look.disconnect();
                requestAnimationFrame(() => setTimeout(() => {
                  const step = performance.now() - watched.tap;
                  // The browser tells of long tasks a little later.
                  setTimeout(() => done([step, watched.freeze]), 300);
                }));
              }
            });
            look.observe(document.body, { childList: true, subtree: true });
          });
        }
        """;

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task The_first_step_of_the_light_van_is_on_a_phone_screen_soon_after_the_tap(bool isOffline)
    {
        await using var bay = await Bay.Open(390, 844);
        var jobs = new List<Guid>();
        for (var i = 0; i < Times; i++)
        {
            jobs.Add(await OpenForAColleague(bay));
        }

        await bay.ComeIn();
        var times = new List<double>();
        foreach (var job in jobs)
        {
            // Each time the app starts anew, as cold as on the first tap of the day, and the job has no plan on this device yet.
            await bay.Page.GotoAsync(bay.Server.Address.ToString());
            var line = bay.Page.Locator($"a[href='job/{job}']");
            await line.WaitForAsync();
            await bay.SetOffline(isOffline);
            await bay.Page.EvaluateAsync(Watch);
            var chromium = await bay.Page.Context.NewCDPSessionAsync(bay.Page);
            await chromium.SendAsync("Performance.enable", new Dictionary<string, object> { ["timeDomain"] = "threadTicks" });
            var before = await WorkOfThePage(chromium);
            await line.ClickAsync();
            var watched = await bay.Page.EvaluateAsync<double[]>("() => window.watched");
            var work = await WorkOfThePage(chromium) - before;
            await chromium.DetachAsync();
            times.Add(watched[0]);
            output.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{(isOffline ? "offline" : "online")}: step after {watched[0]:0} ms, longest freeze {watched[1]:0} ms, work of the page {work:0} ms of processor time"));
            await bay.SetOffline(false);
        }

        Assert.True(times.Order().ElementAt((times.Count - 1) / 2) < Hang_ms, string.Join(" ms, ", times));
    }

    /// <summary>Processor time of the page's only thread so far, which other programs on the machine change little.</summary>
    private static async Task<double> WorkOfThePage(ICDPSession chromium)
    {
        var metrics = (await chromium.SendAsync("Performance.getMetrics"))!.Value.GetProperty("metrics");
        return metrics.EnumerateArray().Single(metric => metric.GetProperty("name").GetString() == "TaskDuration").GetProperty("value").GetDouble() * 1000;
    }

    /// <summary>A job that was opened and agreed elsewhere: tapped here, it goes straight to its first step.</summary>
    private static async Task<Guid> OpenForAColleague(Bay bay)
    {
        var map = MapReader.Read(await File.ReadAllTextAsync(LastoffProgram.Demo("light-van.map.yaml"), TestContext.Current.CancellationToken), "light-van").Map!;
        var job = Job.From(OperationNet.From(map), []);
        foreach (var act in (Act[])[new JobOpened(map.Name, "Invented van of a colleague", "It drips", "The transfer pipe", ["transfer-pipe"], []), new Agreed("The owner", "in person", "Go on")])
        {
            job = job.With(job.Decide(act, new Pen($"device-{Guid.NewGuid():N}", "Colleague", DateTimeOffset.UtcNow, Guid.NewGuid().ToByteArray()[..10])).Entry!);
        }

        var id = job.Entries[0].Id;
        var lines = new StringContent(string.Join('\n', job.Entries.Select(entry => entry.Line)));
        (await bay.Server.Client.PostAsync($"/api/jobs/{id}/entries", lines, TestContext.Current.CancellationToken)).EnsureSuccessStatusCode();
        return id;
    }
}
