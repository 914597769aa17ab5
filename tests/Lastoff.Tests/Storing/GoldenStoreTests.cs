using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Bench;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Tests.Program;
using Microsoft.Data.Sqlite;

namespace Lastoff.Tests.Storing;

/// <summary>Records as they were once written are read, and say what they said.</summary>
public class GoldenStoreTests
{
    private static readonly string Golden = Path.Combine(AppContext.BaseDirectory, "data", "golden");

    [Fact]
    public async Task A_database_from_before_there_were_versions_is_backed_up_and_read_and_goes_on()
    {
        using var folder = new TemporaryFolder();
        File.Copy(Path.Combine(Golden, "before-schema-versions.db"), folder.In("lastoff.db"));
        await using var server = new ServerProcess(LastoffProgram.Path, "--data", folder.Path);
        await server.StartAsync();
        using var client = new HttpClient { BaseAddress = server.Address };
        var jobs = (await client.GetFromJsonAsync<JsonArray>("/api/jobs", TestContext.Current.CancellationToken))!;
        Assert.Equal([1L, 1L, 10L, 371L, 99L], jobs.Select(job => (long)job!["entries"]!));
        foreach (var name in (string[])["light-van", "orchard-sprayer-pump"])
        {
            var ledger = Ledger(name);
            var page = (await client.GetFromJsonAsync<JsonObject>($"/api/jobs/{ledger[0].Id}/entries", TestContext.Current.CancellationToken))!;
            Assert.Equal(ledger.Select(entry => entry.Line).Order(), page["lines"]!.AsArray().Select(line => (string)line!).Order());
            // A device that had read it all goes on from the number it knows.
            Assert.Equal(name == "light-van" ? 383 : 482, (long)page["upTo"]!);
            Assert.Contains(jobs, job => (string)job!["id"]! == ledger[0].Id.ToString() && (string)job["map"]! == name);
        }

        await server.StopAsync();
        Assert.Equal(0, (await LastoffProgram.Run("verify", "--data", folder.Path)).ExitCode);
        // It was set aside as it was before anything was done to it, and once more as it is now.
        var backups = Directory.EnumerateFiles(folder.In("backups"), "*.db").Order().ToList();
        Assert.Equal(2, backups.Count);
        Assert.Equal([false, true], backups.Select(HasVersion));
    }

    private static bool HasVersion(string file)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT count(*) FROM sqlite_master WHERE name = 'schema_version'";
        return (long)command.ExecuteScalar()! == 1;
    }

    [Fact]
    public async Task A_database_of_version_2_keeps_its_entries_and_its_people_and_takes_photos()
    {
        var cancel = TestContext.Current.CancellationToken;
        using var folder = new TemporaryFolder();
        File.Copy(Path.Combine(Golden, "schema-2.db"), folder.In("lastoff.db"));
        await using var server = new ServerProcess(LastoffProgram.Path, "--data", folder.Path);
        await server.StartAsync();
        using var client = new HttpClient { BaseAddress = server.Address };
        // It has an owner, so nobody else gets in.
        Assert.Equal(HttpStatusCode.Unauthorized, (await client.GetAsync("/api/jobs", cancel)).StatusCode);
        (await client.PostAsJsonAsync("/api/doors/enter", new { name = "Invented Owner", password = "a sentence that is long" }, cancel)).EnsureSuccessStatusCode();
        foreach (var name in (string[])["light-van", "orchard-sprayer-pump"])
        {
            var ledger = Ledger(name);
            var page = (await client.GetFromJsonAsync<JsonObject>($"/api/jobs/{ledger[0].Id}/entries", cancel))!;
            Assert.Equal(ledger.Select(entry => entry.Line), page["lines"]!.AsArray().Select(line => (string)line!));
        }

        Assert.Equal(0, (int)(await client.GetFromJsonAsync<JsonObject>($"/api/photos/{new string('0', 64)}/arrived", cancel))!["bytes"]!);
    }

    [Theory]
    [InlineData("schema-3.db")]
    [InlineData("schema-4.db")]
    public async Task A_backup_of_an_earlier_version_is_brought_back_and_every_text_of_its_maps_is_kept(string backup)
    {
        var cancel = TestContext.Current.CancellationToken;
        using var folder = new TemporaryFolder();
        Assert.Equal(0, (await LastoffProgram.Run("restore", Path.Combine(Golden, backup), "--data", folder.Path)).ExitCode);
        await using var server = new ServerProcess(LastoffProgram.Path, "--data", folder.Path);
        await server.StartAsync();
        using var client = new HttpClient { BaseAddress = server.Address };
        (await client.PostAsJsonAsync("/api/doors/enter", new { name = "Invented Owner", password = "a sentence that is long" }, cancel)).EnsureSuccessStatusCode();
        var listed = (await client.GetFromJsonAsync<JsonArray>("/api/maps", cancel))!;
        foreach (var name in (string[])["light-van", "orchard-sprayer-pump"])
        {
            var ledger = Ledger(name);
            var page = (await client.GetFromJsonAsync<JsonObject>($"/api/jobs/{ledger[0].Id}/entries", cancel))!;
            Assert.Equal(ledger.Select(entry => entry.Line), page["lines"]!.AsArray().Select(line => (string)line!));
            var yaml = await File.ReadAllTextAsync(Path.Combine(Golden, name + ".map.yaml"), cancel);
            Assert.Equal(Entry.Sha256(yaml), (string)listed.Single(map => (string)map!["name"]! == name)!["sha256"]!);
            Assert.Equal(yaml, await client.GetStringAsync($"/api/maps/texts/{Entry.Sha256(yaml)}", cancel));
        }
    }

    [Theory]
    [InlineData("light-van", 371, true, 4)]
    [InlineData("orchard-sprayer-pump", 99, false, 0)]
    public void A_ledger_as_it_was_once_written_says_what_it_said(string name, int entries, bool isHandedOver, int questions)
    {
        var ledger = Ledger(name);
        Assert.Equal(entries, ledger.Count);
        var net = OperationNet.From(MapReader.Read(File.ReadAllText(Path.Combine(Golden, name + ".map.yaml")), name).Map!);
        var standing = Fold.Of(net, ledger);
        Assert.Empty(standing.Unread);
        Assert.Equal(isHandedOver, standing.HandedOver is not null);
        Assert.Equal(questions, standing.Questions.Count);
    }

    private static IReadOnlyList<Entry> Ledger(string name)
    {
        var reading = LedgerFile.Read(File.ReadAllText(Path.Combine(Golden, name + ".ledger.jsonl")), name);
        Assert.Null(reading.Fault);
        return reading.Entries;
    }
}
