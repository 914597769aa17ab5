using System.IO.Compression;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Program;
using Lastoff.Tests.Storing;

namespace Lastoff.Tests.Serving;

/// <summary>What a server does for devices, the same on every store.</summary>
/// <param name="store">Where the records are, as <c>lastoff serve</c> is told.</param>
public abstract class ServerTests(IReadOnlyList<string> store) : IAsyncLifetime
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;
    private static readonly string[] DemoRecordings = Directory.GetFiles(Path.GetDirectoryName(LastoffProgram.Demo("jobs.json"))!, "*.recording.jsonl");
    private static readonly int DemoEntries = DemoRecordings.Sum(file => File.ReadLines(file).Count());
    private RunningServer _server = null!;

    public async ValueTask InitializeAsync() => _server = await RunningServer.Start(store);

    public async ValueTask DisposeAsync() => await _server.DisposeAsync();

    [Fact]
    public async Task The_invented_workshop_has_its_maps_and_waiting_jobs()
    {
        var maps = await _server.Client.GetFromJsonAsync<JsonArray>("/api/maps", Cancel);
        Assert.All(maps!, map => Assert.True((bool)map!["invented"]!));
        var jobs = await _server.Client.GetFromJsonAsync<JsonArray>("/api/jobs", Cancel);
        Assert.NotEmpty(jobs!);
        // A recording has no map.
        Assert.All(jobs!, job => Assert.True((string)job!["map"]! == "" || maps!.Any(map => (string)map!["name"]! == (string)job["map"]!)));
        Assert.Equal(DemoRecordings.Length, jobs!.Count(job => (string)job!["map"]! == ""));
    }

    [Fact]
    public async Task A_map_s_text_comes_packed_and_what_may_hold_a_secret_as_it_is()
    {
        async Task<(string? Packed, string Text)> Ask(string path)
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, path);
            request.Headers.AcceptEncoding.ParseAdd("br");
            using var answer = await _server.Client.SendAsync(request, Cancel);
            var packed = answer.Content.Headers.ContentEncoding.SingleOrDefault();
            await using var body = await answer.Content.ReadAsStreamAsync(Cancel);
            using var text = new StreamReader(packed is null ? body : new BrotliStream(body, CompressionMode.Decompress));
            return (packed, await text.ReadToEndAsync(Cancel));
        }

        Assert.Equal(("br", await _server.Client.GetStringAsync("/api/maps/orchard-sprayer-pump", Cancel)), await Ask("/api/maps/orchard-sprayer-pump"));
        Assert.Null((await Ask("/api/jobs")).Packed);
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
    public async Task A_server_that_is_asked_to_stop_ends_well_and_has_everything_when_it_is_back()
    {
        var (job, lines) = await OpenedJob();
        await Send(job, lines);
        Assert.Equal(0, await _server.Process.StopAsync());
        await _server.Process.StartAsync();
        Assert.Equal(lines, await Lines(job));
    }

    [Fact]
    public async Task Many_devices_at_once_lose_nothing_and_each_gets_its_own_answer()
    {
        var (job, lines) = await OpenedJob();
        await Send(job, lines);
        var sent = await Task.WhenAll(Enumerable.Range(0, 40).Select(async device =>
        {
            var own = Notes(job, lines[0], $"device-{device}", 5);
            var receipts = new List<JsonObject>();
            foreach (var line in own)
            {
                receipts.Add(await Send(job, [line]));
            }

            Assert.Equal(own.Select(line => EntryOf(line).Id.ToString()), receipts.SelectMany(receipt => receipt["accepted"]!.AsArray()).Select(id => (string)id!));
            return own;
        }));
        Assert.Equal(sent.SelectMany(own => own).Concat(lines).Order(), (await Lines(job)).Order());
        var stored = (await _server.Client.GetFromJsonAsync<JsonArray>("/api/jobs", Cancel))!.Single(j => (string)j!["id"]! == job.ToString());
        Assert.Equal(203, (long)stored!["entries"]!);
    }

    [Fact]
    public async Task An_identifier_in_use_is_refused_with_what_follows_it_and_the_chain_stays_whole()
    {
        var (job, lines) = await OpenedJob();
        await Send(job, lines);
        var own = Notes(job, lines[0], "forger", 2);
        var (first, second) = (EntryOf(own[0]), EntryOf(own[1]));
        var forged = EntryLine.Write(new Noted("under another's name"), EntryOf(lines[1]).Id, "forger", DateTimeOffset.UtcNow, "Forger", first);
        var after = EntryLine.Write(new Noted("and on"), EntryId.Next(DateTimeOffset.UtcNow, second.Id, new byte[10]), "forger", DateTimeOffset.UtcNow, "Forger", forged);
        var receipt = await Send(job, [first.Line, first.Line, forged.Line, forged.Line, after.Line]);
        Assert.Equal([first.Id.ToString()], receipt["accepted"]!.AsArray().Select(id => (string)id!));
        var why = receipt["refused"]!.AsArray().Select(refused => (string)refused!["why"]!).ToList();
        Assert.Contains(why, sentence => sentence.StartsWith("Another entry is here", StringComparison.Ordinal));
        Assert.Contains("Entry 3 of device forger follows one that was not taken.", why);
        Assert.Equal(4, (await Lines(job)).Count());
        // The way on from what was taken is still open.
        Assert.Equal([second.Id.ToString()], (await Send(job, [second.Line]))["accepted"]!.AsArray().Select(id => (string)id!));
        Assert.Contains($"Whole: {DemoEntries + 7} entries", await Succeeds("verify", Where));
    }

    [Fact]
    public async Task A_name_that_no_database_keeps_is_refused_and_harms_no_other()
    {
        var (job, lines) = await OpenedJob();
        await Send(job, lines);
        Assert.Contains("NUL", await WhyNot(job, Notes(job, lines[0], "nul\0here", 1)[0]));
        await Send(job, Notes(job, lines[0], "another", 2));
        Assert.Equal(5, (await Lines(job)).Count());
    }

    [Fact]
    public async Task It_is_healthy_and_says_which_store_it_has()
    {
        Assert.Equal(HttpStatusCode.OK, (await _server.Client.GetAsync("/health", Cancel)).StatusCode);
        var before = await Store();
        Assert.True(before.Length >= 32);
        await _server.KillAndRestart();
        Assert.Equal(before, await Store());
    }

    [Fact]
    public async Task Whoever_listens_is_told_when_entries_come_in()
    {
        var (job, lines) = await OpenedJob();
        await using var line = await LiveLine.Open(_server.Client);
        await Send(job, lines);
        await line.News();
        // Once heard it is told no more; what comes after is.
        await Send(job, lines);
        await Send(job, Notes(job, lines[0], "another", 1));
        await line.News();
    }

    [Fact]
    public async Task A_workshop_is_verified_and_moves_as_files_and_again_changes_nothing()
    {
        var (job, lines) = await OpenedJob();
        await Send(job, lines);
        using var folder = new TemporaryFolder();
        foreach (var target in new[] { folder.In("files"), folder.In("files.zip") })
        {
            await Succeeds("export", [target, .. Where]);
            foreach (var more in (string[])[$"2 maps, {DemoEntries + 5} entries", "0 maps, 0 entries"])
            {
                Assert.Contains(more, await Succeeds("import", [target, "--data", folder.In("moved " + Path.GetFileName(target))]));
            }
        }

        Assert.Contains($"Whole: {DemoEntries + 5} entries in {DemoRecordings.Length + 3} jobs", await Succeeds("verify", Where));
    }

    [Fact]
    public async Task A_workshop_in_use_is_verified_and_exported_as_it_was_at_one_moment()
    {
        using var folder = new TemporaryFolder();
        Directory.CreateDirectory(folder.In("from"));
        File.Copy(Path.Combine(AppContext.BaseDirectory, "data", "golden", "light-van.ledger.jsonl"), folder.In("from/van.ledger.jsonl"));
        await Succeeds("import", [folder.In("from"), .. Where]);
        var (job, lines) = await OpenedJob();
        await Send(job, lines);
        using var stop = new CancellationTokenSource();
        var writing = Task.WhenAll(Enumerable.Range(0, 2).Select(writer => Task.Run(async () =>
        {
            var sent = 0;
            foreach (var note in Notes(job, lines[0], $"writer {writer}", 20_000).TakeWhile(_ => !stop.IsCancellationRequested))
            {
                await Send(job, [note]);
                sent++;
            }

            return sent;
        })));
        for (var time = 0; time < 3; time++)
        {
            Assert.Contains("Whole:", await Succeeds("verify", Where));
            await Succeeds("export", [folder.In($"out {time}"), .. Where]);
            await Succeeds("verify", [folder.In($"out {time}/jobs/{job}.ledger.jsonl")]);
        }

        await stop.CancelAsync();
        Assert.All(await writing, sent => Assert.True(sent > 10));
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

    [Fact]
    public async Task What_is_not_there_is_not_found()
    {
        foreach (var path in new[] { "/api/maps/..%2flastoff", "/api/maps/nothing-here", "/api/jobs/017f22e2-79b0-7cc3-98c4-dc0c0c07398f/ledger", "/api/nothing" })
        {
            Assert.Equal((path, HttpStatusCode.NotFound), (path, (await _server.Client.GetAsync(path, Cancel)).StatusCode));
        }
    }

    private IReadOnlyList<string> Where => store.Count > 0 ? store : ["--data", _server.Data];

    private static async Task<string> Succeeds(string command, IReadOnlyList<string> arguments)
    {
        var ran = await LastoffProgram.Run([command, .. arguments]);
        Assert.Equal("", ran.Error);
        Assert.Equal(0, ran.ExitCode);
        return ran.Output;
    }

    private async Task<string> Store() => (await _server.Client.GetAsync("/api/jobs", Cancel)).Headers.GetValues("Lastoff-Store").Single();

    /// <summary>Notes of one device in a job.</summary>
    private static List<string> Notes(Guid job, string opening, string device, int count)
    {
        var lines = new List<string>();
        Entry? previous = null;
        var latest = EntryOf(opening).Id;
        for (var note = 1; note <= count; note++)
        {
            latest = EntryId.Next(DateTimeOffset.UtcNow, latest, Guid.NewGuid().ToByteArray().AsSpan()[..10]);
            previous = EntryLine.Write(new Noted($"note {note} in {job}"), latest, device, DateTimeOffset.UtcNow, "Tester", previous);
            lines.Add(previous.Line);
        }

        return lines;
    }

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

public sealed class ServerOnSqliteTests() : ServerTests([]);

public sealed class ServerOnPostgresTests() : ServerTests(TestPostgres.NewWorkshop());
