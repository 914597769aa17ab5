using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Serving;

public sealed class ServerTests : IAsyncLifetime
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;
    private RunningServer _server = null!;

    public async ValueTask InitializeAsync() => _server = await RunningServer.Start();

    public async ValueTask DisposeAsync() => await _server.DisposeAsync();

    [Fact]
    public async Task The_invented_workshop_has_its_maps_and_waiting_jobs()
    {
        var maps = await _server.Client.GetFromJsonAsync<JsonArray>("/api/maps", Cancel);
        Assert.All(maps!, map => Assert.True((bool)map!["invented"]!));
        var jobs = await _server.Client.GetFromJsonAsync<JsonArray>("/api/jobs", Cancel);
        Assert.NotEmpty(jobs!);
        Assert.All(jobs!, job => Assert.Contains(maps!, map => (string)map!["name"]! == (string)job!["map"]!));
    }

    [Fact]
    public async Task Entries_sent_twice_are_kept_once_and_accepted_twice()
    {
        var (job, lines) = await OpenedJob();
        for (var time = 0; time < 2; time++)
        {
            var receipt = await Send(job, lines);
            Assert.Equal(lines.Count, receipt["accepted"]!.AsArray().Count);
        }

        Assert.Equal(lines, await Lines(job));
    }

    [Fact]
    public async Task What_was_accepted_is_there_after_the_server_is_killed()
    {
        var (job, lines) = await OpenedJob();
        await Send(job, lines);
        await _server.KillAndRestart();
        Assert.Equal(lines, await Lines(job));
    }

    [Fact]
    public async Task A_device_gets_only_what_came_after_its_place()
    {
        var (job, lines) = await OpenedJob();
        await Send(job, lines[..2]);
        var upTo = (long)(await Page(job, 0))["upTo"]!;
        await Send(job, lines);
        var page = await Page(job, upTo);
        Assert.Equal(lines[2..], page["lines"]!.AsArray().Select(l => (string)l!));
        Assert.Empty((await Page(job, (long)page["upTo"]!))["lines"]!.AsArray());
    }

    [Fact]
    public async Task The_exported_ledger_is_whole()
    {
        var (job, lines) = await OpenedJob();
        await Send(job, lines);
        var reading = LedgerFile.Read(await _server.Client.GetStringAsync($"/api/jobs/{job}/ledger", Cancel), "export");
        Assert.Null(reading.Fault);
        Assert.Equal(lines, reading.Entries.Select(e => e.Line));
    }

    [Fact]
    public async Task Forged_cut_and_misplaced_entries_are_refused_with_a_sentence()
    {
        var (job, lines) = await OpenedJob();
        Assert.Contains("not open here", await WhyNot(job, lines[1]));
        await Send(job, lines[..1]);
        Assert.Contains("entry 2 is missing", await WhyNot(job, lines[2]));
        Assert.Contains("changed after it was written", await WhyNot(job, lines[1].Replace("needs the seal", "needs nothing")));
        Assert.Contains("cut or damaged", await WhyNot(job, lines[1][..40]));
        Assert.Contains("begins with", await WhyNot(EntryOf(lines[1]).Id, lines[1]));
        Assert.Equal(lines[..1], await Lines(job));
    }

    [Fact]
    public async Task A_body_beyond_the_limit_or_not_UTF8_is_refused()
    {
        var (job, _) = await OpenedJob();
        // The server answers before the body is sent, and hangs up; a client that is already sending would only see the line break.
        using var request = new HttpRequestMessage(HttpMethod.Post, $"/api/jobs/{job}/entries") { Content = new ByteArrayContent(new byte[5 * 1024 * 1024]) };
        request.Headers.ExpectContinue = true;
        var large = await _server.Client.SendAsync(request, Cancel);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, large.StatusCode);
        var broken = await _server.Client.PostAsync($"/api/jobs/{job}/entries", new ByteArrayContent([0x41, 0xff, 0x41]), Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, broken.StatusCode);
    }

    [Theory]
    [InlineData("/api/maps/..%2flastoff")]
    [InlineData("/api/maps/nothing-here")]
    [InlineData("/api/jobs/017f22e2-79b0-7cc3-98c4-dc0c0c07398f/ledger")]
    [InlineData("/api/nothing")]
    public async Task What_is_not_there_is_not_found(string path) =>
        Assert.Equal(HttpStatusCode.NotFound, (await _server.Client.GetAsync(path, Cancel)).StatusCode);

    private async Task<(Guid Job, List<string> Lines)> OpenedJob()
    {
        var map = MapReader.Read(await _server.Client.GetStringAsync("/api/maps/orchard-sprayer-pump", Cancel), "map").Map!;
        var job = Job.From(OperationNet.From(map), []);
        Act[] acts = [new JobOpened(map.Name, "Invented", "It leaks", "A seal", [map.Parts[0].Id], []), new Noted("needs the seal"), new Agreed("The owner", "in person", "Go on")];
        foreach (var act in acts)
        {
            var decision = job.Decide(act, new Pen("test-device", "Tester", DateTimeOffset.UtcNow, Guid.NewGuid().ToByteArray()[..10]));
            job = job.With(decision.Entry!);
        }

        return (job.Entries[0].Id, [.. job.Entries.Select(e => e.Line)]);
    }

    private async Task<JsonObject> Send(Guid job, IEnumerable<string> lines)
    {
        var response = await _server.Client.PostAsync($"/api/jobs/{job}/entries", new StringContent(string.Join('\n', lines)), Cancel);
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        return (await response.Content.ReadFromJsonAsync<JsonObject>(Cancel))!;
    }

    private async Task<string> WhyNot(Guid job, string line)
    {
        var receipt = await Send(job, [line]);
        Assert.Empty(receipt["accepted"]!.AsArray());
        return (string)receipt["refused"]![0]!["why"]!;
    }

    private async Task<JsonObject> Page(Guid job, long after) =>
        (await _server.Client.GetFromJsonAsync<JsonObject>($"/api/jobs/{job}/entries?after={after}", Cancel))!;

    private async Task<IEnumerable<string>> Lines(Guid job) => (await Page(job, 0))["lines"]!.AsArray().Select(l => (string)l!);

    private static Entry EntryOf(string line) => EntryLine.TryRead(line, out var entry, out _) ? entry! : throw new InvalidOperationException(line);
}
