using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Tests.Program;
using Lastoff.Tests.Storing;

namespace Lastoff.Tests.Serving;

/// <summary>Maps that are saved on devices, before the real server on either store.</summary>
public abstract class MapSavingTests(IReadOnlyList<string> store) : IAsyncLifetime
{
    private const string Pump = "/api/maps/orchard-sprayer-pump";

    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    private RunningServer _server = null!;

    public async ValueTask InitializeAsync() => _server = await RunningServer.Start(store);

    public ValueTask DisposeAsync() => _server.DisposeAsync();

    [Fact]
    public async Task A_job_keeps_the_text_it_was_opened_with_after_the_map_is_edited_and_all_hear_of_it()
    {
        var first = await Text(Pump);
        var job = (await _server.Client.GetFromJsonAsync<JsonArray>("/api/jobs", Cancel))!.Single(job => (string)job!["map"]! == "orchard-sprayer-pump")!;
        await using var line = await LiveLine.Open(_server.Client);
        var edited = Titled(first, "Edited");
        Assert.Equal(HttpStatusCode.OK, (await Put(edited, first)).StatusCode);
        await line.News();
        Assert.Equal(edited, await Text(Pump));
        Assert.Equal(Entry.Sha256(edited), await Newest());
        Assert.Equal(first, await Text($"/api/maps/texts/{Entry.Sha256(first)}"));
        var entry = EntryLine.ReadAll([(string)(await _server.Client.GetFromJsonAsync<JsonObject>($"/api/jobs/{job["id"]}/entries", Cancel))!["lines"]![0]!]).Single();
        Assert.Equal(Entry.Sha256(first), Assert.IsType<JobOpened>(ActKinds.Read(entry, out _)).MapSha256);
        Assert.Equal(HttpStatusCode.OK, (await _server.Client.GetAsync($"/api/jobs/{job["id"]}/plan?entries=1&map={Entry.Sha256(first)}", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.Conflict, (await _server.Client.GetAsync($"/api/jobs/{job["id"]}/plan?entries=1&map={Entry.Sha256(edited)}", Cancel)).StatusCode);
    }

    [Fact]
    public async Task Of_two_who_edited_the_same_text_the_second_is_told_and_loses_nothing()
    {
        var first = await Text(Pump);
        var (left, right) = (Titled(first, "Left"), Titled(first, "Right"));
        Assert.Equal(HttpStatusCode.OK, (await Put(left, first, "Invented Left")).StatusCode);
        var answer = await Put(right, first, "Invented Right");
        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
        var said = (await answer.Content.ReadFromJsonAsync<JsonObject>(Cancel))!;
        Assert.Contains("changed by Invented Left", (string)said["detail"]!);
        Assert.Equal(Entry.Sha256(left), (string)said["newest"]!);
        Assert.Equal(left, await Text(Pump));
        Assert.Equal(right, await Text($"/api/maps/texts/{Entry.Sha256(right)}"));
        // All the same: it is edited from the newest by saying so.
        Assert.Equal(HttpStatusCode.OK, (await Put(right, left)).StatusCode);
        Assert.Equal(right, await Text(Pump));
    }

    [Fact]
    public async Task Sending_a_text_again_is_harmless_also_when_it_has_been_edited_since()
    {
        var first = await Text(Pump);
        var (second, third) = (Titled(first, "Second"), Titled(first, "Third"));
        foreach (var (text, from) in (IEnumerable<(string, string)>)[(second, first), (second, first), (third, second), (second, first), (third, second)])
        {
            Assert.Equal(HttpStatusCode.OK, (await Put(text, from)).StatusCode);
        }

        Assert.Equal(third, await Text(Pump));
    }

    [Fact]
    public async Task An_older_text_saved_anew_is_no_sending_again()
    {
        var first = await Text(Pump);
        var (second, third) = (Titled(first, "Second"), Titled(first, "Third"));
        await Put(second, first);
        await Put(third, second);
        // Somebody who has not seen the third wants the first back.
        Assert.Equal(HttpStatusCode.Conflict, (await Put(first, second)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await Put(first, third)).StatusCode);
        Assert.Equal(first, await Text(Pump));
        Assert.Equal(HttpStatusCode.OK, (await Put(first, third)).StatusCode);
    }

    [Fact]
    public async Task A_text_sent_beside_the_newest_is_kept_and_never_the_newest()
    {
        var first = await Text(Pump);
        var (second, third) = (Titled(first, "Second"), Titled(first, "Third"));
        await Put(second, first);
        Assert.Equal(HttpStatusCode.OK, (await _server.Client.PutAsync($"{Pump}?edited_from={Entry.Sha256(second)}&beside=true", new StringContent(third), Cancel)).StatusCode);
        Assert.Equal(second, await Text(Pump));
        Assert.Equal(third, await Text($"/api/maps/texts/{Entry.Sha256(third)}"));
    }

    [Fact]
    public async Task A_map_with_faults_or_of_another_name_is_refused_with_its_lines_and_nothing_is_kept()
    {
        var first = await Text(Pump);
        foreach (var (yaml, sentence) in new[] { ("format: 1\nname: orchard-sprayer-pump\nwheels: 4\n", "orchard-sprayer-pump, line 3, wheels:"), (await Text("/api/maps/light-van"), "named “light-van” and not “orchard-sprayer-pump”") })
        {
            var answer = await Put(yaml, first);
            Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
            Assert.Contains(sentence, (string)(await answer.Content.ReadFromJsonAsync<JsonObject>(Cancel))!["detail"]!);
        }

        Assert.Equal(first, await Text(Pump));
        Assert.Equal(HttpStatusCode.NotFound, (await _server.Client.GetAsync($"/api/maps/texts/{Entry.Sha256("format: 1\nname: orchard-sprayer-pump\nwheels: 4\n")}", Cancel)).StatusCode);
    }

    [Fact]
    public async Task Every_text_is_exported_and_imported_with_who_saved_it_and_one_that_was_changed_is_named()
    {
        var first = await Text(Pump);
        await Put(Titled(first, "Edited"), first, "Invented Saver");
        await _server.Process.StopAsync();
        string[] from = store.Count > 0 ? [.. store] : ["--data", _server.Data];
        using var folder = new TemporaryFolder();
        var (files, other) = (folder.In("files"), folder.In("other"));
        Assert.Equal(0, (await LastoffProgram.Run(["export", files, .. from])).ExitCode);
        Assert.Equal(0, (await LastoffProgram.Run("import", files, "--data", other)).ExitCode);
        Assert.Contains("Texts of maps as they were saved: 3.", (await LastoffProgram.Run("verify", "--data", other)).Output);
        Assert.Contains("\"saved_by\":\"Invented Saver\"", await File.ReadAllTextAsync(Path.Combine(files, "maps", "texts.jsonl"), Cancel));
        var text = Path.Combine(files, "maps", "texts", Entry.Sha256(first) + ".yaml");
        await File.AppendAllTextAsync(text, "# more\n", Cancel);
        var ran = await LastoffProgram.Run("import", files, "--data", folder.In("third"));
        Assert.Equal(2, ran.ExitCode);
        Assert.Contains("is not the one of this SHA-256", ran.Error);
    }

    private static string Titled(string yaml, string title) => string.Join('\n', yaml.Split('\n').Select(line => line.StartsWith("title:", StringComparison.Ordinal) ? $"title: {title}" : line));

    private Task<string> Text(string path) => _server.Client.GetStringAsync(path, Cancel);

    private async Task<string> Newest() =>
        (string)(await _server.Client.GetFromJsonAsync<JsonArray>("/api/maps", Cancel))!.Single(map => (string)map!["name"]! == "orchard-sprayer-pump")!["sha256"]!;

    private Task<HttpResponseMessage> Put(string yaml, string editedFrom, string by = "") =>
        _server.Client.PutAsync($"{Pump}?edited_from={Entry.Sha256(editedFrom)}&by={Uri.EscapeDataString(by)}", new StringContent(yaml), Cancel);
}

public sealed class SqliteMapSavingTests() : MapSavingTests([]);

public sealed class PostgresMapSavingTests() : MapSavingTests(TestPostgres.NewWorkshop());
