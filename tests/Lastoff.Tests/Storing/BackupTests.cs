using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Bench;
using Lastoff.Core.Maps;
using Lastoff.Tests.Program;
using Microsoft.Data.Sqlite;

namespace Lastoff.Tests.Storing;

/// <summary>Records that went back to a backup: what is lost is said, the file is kept, and devices can tell.</summary>
public sealed class BackupTests : IAsyncLifetime
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;
    private readonly TemporaryFolder _folder = new();
    private ServerProcess _server = null!;
    private HttpClient _client = null!;

    public async ValueTask InitializeAsync()
    {
        _server = new ServerProcess(LastoffProgram.Path, "--data", _folder.Path);
        await _server.StartAsync();
        _client = new HttpClient { BaseAddress = _server.Address };
    }

    public async ValueTask DisposeAsync()
    {
        _client.Dispose();
        await _server.DisposeAsync();
        _folder.Dispose();
    }

    [Fact]
    public async Task A_backup_is_brought_back_and_what_it_lacks_is_said_and_kept_aside_and_sent_again()
    {
        var device = new SimulatedDevice("phone", _client, new Random(1));
        var job = device.Open(Van());
        await Write(device, 5);
        // The start backs up what it finds.
        await _server.StopAsync();
        await _server.StartAsync();
        var backup = await BackupOf(6);
        var before = await Store();
        await Write(device, 7);
        Assert.Contains("stop it first", (await LastoffProgram.Run("restore", backup, "--data", _folder.Path)).Error);
        await _server.StopAsync();

        var look = await LastoffProgram.Run("restore", backup, "--look", "--data", _folder.Path);
        Assert.Contains("7 entries of the present file are not in the backup", look.Output);
        Assert.Contains($"7 of job {job}", look.Output);
        Assert.Contains("13 entries", (await LastoffProgram.Run("verify", "--data", _folder.Path)).Output);
        var ran = await LastoffProgram.Run("restore", backup, "--json", "--data", _folder.Path);
        Assert.Equal(0, ran.ExitCode);
        var said = JsonNode.Parse(ran.Output)!;
        Assert.Equal(7, (int)said["lost"]![0]!["entries"]!);
        Assert.True(File.Exists((string)said["aside"]!));
        Assert.Contains("6 entries", (await LastoffProgram.Run("verify", "--data", _folder.Path)).Output);

        await _server.StartAsync();
        Assert.NotEqual(before, await Store());
        // The file kept aside is a backup like any other: nothing of it is gone for good.
        await _server.StopAsync();
        Assert.Contains("has every entry", (await LastoffProgram.Run("restore", (string)said["aside"]!, "--data", _folder.Path)).Output);
        Assert.Contains("13 entries", (await LastoffProgram.Run("verify", "--data", _folder.Path)).Output);
        await _server.StartAsync();
    }

    [Fact]
    public async Task An_earlier_copy_put_in_place_by_hand_is_noticed()
    {
        var device = new SimulatedDevice("phone", _client, new Random(2));
        device.Open(Van());
        await Write(device, 3);
        await _server.StopAsync();
        File.Copy(Path.Combine(_folder.Path, "lastoff.db"), _folder.In("copy"));
        await _server.StartAsync();
        var before = await Store();
        await Write(device, 3);
        await _server.StopAsync();
        await _server.StartAsync();
        Assert.Equal(before, await Store());
        // The start's own backup has all seven by now.
        await BackupOf(7);
        await _server.StopAsync();
        File.Copy(_folder.In("copy"), Path.Combine(_folder.Path, "lastoff.db"), overwrite: true);
        await _server.StartAsync();
        Assert.NotEqual(before, await Store());
    }

    [Fact]
    public async Task An_earlier_copy_is_noticed_although_an_earlier_version_wrote_it()
    {
        var device = new SimulatedDevice("phone", _client, new Random(3));
        device.Open(Van());
        await Write(device, 3);
        await _server.StopAsync();
        File.Copy(Records, _folder.In("copy"));
        Sql(_folder.In("copy"), "DROP TABLE people; DROP TABLE passkeys; DROP TABLE devices; DROP TABLE invitations; DROP TABLE signing_keys; DROP TABLE photos; DROP TABLE map_texts; DROP TABLE settings; UPDATE schema_version SET version = 1");
        await _server.StartAsync();
        var before = await Store();
        await Write(device, 3);
        await _server.StopAsync();
        await _server.StartAsync();
        await BackupOf(7);
        await _server.StopAsync();
        File.Copy(_folder.In("copy"), Records, overwrite: true);
        await _server.StartAsync();
        Assert.NotEqual(before, await Store());
    }

    [Fact]
    public async Task A_backup_lets_nobody_in_again_who_was_shut_out_and_brings_a_lost_map_back()
    {
        await _client.PostAsJsonAsync("/api/doors/owner", new { name = "Invented Owner", password = "a long invented one", label = "Desk" }, Cancel);
        Directory.CreateDirectory(_folder.In("maps"));
        var map = _folder.In("maps/light-van.map.yaml");
        File.Copy(LastoffProgram.Demo("light-van.map.yaml"), map);
        await _server.StopAsync();
        // Nothing but a person, a device and a map is new.
        await _server.StartAsync();
        var backup = await Backup(file => (long)Sql(file, "SELECT (SELECT count(*) FROM devices) + (SELECT count(*) FROM maps)")! == 2);
        Assert.Equal(HttpStatusCode.OK, (await _client.GetAsync("/api/jobs", Cancel)).StatusCode);
        var device = (string)(await _client.GetFromJsonAsync<JsonArray>("/api/devices", Cancel))![0]!["id"]!;
        Assert.Equal(HttpStatusCode.NoContent, (await _client.PostAsJsonAsync($"/api/devices/{device}/out", new { }, Cancel)).StatusCode);
        await _server.StopAsync();
        File.Delete(map);
        Assert.Equal(0, (await LastoffProgram.Run("restore", backup, "--look", "--data", _folder.Path)).ExitCode);
        Assert.False(File.Exists(map));
        Assert.Equal(0, (await LastoffProgram.Run("restore", backup, "--data", _folder.Path)).ExitCode);
        Assert.Equal(await File.ReadAllTextAsync(LastoffProgram.Demo("light-van.map.yaml"), Cancel), await File.ReadAllTextAsync(map, Cancel));
        await _server.StartAsync();
        Assert.Equal(HttpStatusCode.Unauthorized, (await _client.GetAsync("/api/jobs", Cancel)).StatusCode);
    }

    [Fact]
    public async Task A_backup_that_cannot_be_read_or_was_never_finished_keeps_nobody_from_the_next()
    {
        var device = new SimulatedDevice("phone", _client, new Random(4));
        device.Open(Van());
        await Write(device, 2);
        await _server.StopAsync();
        var backups = _folder.In("backups");
        await File.WriteAllTextAsync(Path.Combine(backups, "lastoff-29991231T235959999Z.db"), "no database at all, but long enough to be taken for one at first sight", Cancel);
        foreach (var left in (string[])["lastoff-20260101T000000Z.db.new", "lastoff.db.new", "lastoff.db.new-journal"])
        {
            await File.WriteAllTextAsync(Path.Combine(backups, left), "half of it", Cancel);
        }

        await _server.StartAsync();
        await BackupOf(3);
        Assert.Empty(Directory.EnumerateFiles(backups, "*.new*"));
    }

    [Fact]
    public async Task Backups_are_listed_newest_first_whether_named_to_the_second_or_finer()
    {
        await _server.StopAsync();
        foreach (var file in Directory.EnumerateFiles(_folder.In("backups")))
        {
            File.Delete(file);
        }

        string[] newestFirst = ["20260102T030406000Z", "20260102T030405900Z", "20260102T030405001Z", "20260102T030405Z", "20260102T030404999Z"];
        foreach (var time in newestFirst)
        {
            await File.WriteAllTextAsync(_folder.In($"backups/lastoff-{time}.db"), "", Cancel);
        }

        var listed = JsonNode.Parse((await LastoffProgram.Run("restore", "--json", "--data", _folder.Path)).Output)!["backups"]!.AsArray();
        Assert.Equal(newestFirst.Select(time => $"lastoff-{time}.db"), listed.Select(file => Path.GetFileName((string)file!)));
    }

    [Fact]
    public async Task What_is_no_backup_is_refused_by_name_and_the_records_stay()
    {
        var device = new SimulatedDevice("phone", _client, new Random(6));
        device.Open(Van());
        await Write(device, 2);
        await _server.StopAsync();
        foreach (var (name, how, why) in new[]
        {
            ("nowhere.db", "", "is not there"),
            ("empty.db", "empty", "holds no records of Lastoff"),
            ("other.db", "CREATE TABLE birds (name TEXT)", "holds no records of Lastoff"),
            ("entries.db", "CREATE TABLE entries (name TEXT)", "holds no records of Lastoff"),
            ("later.db", "UPDATE schema_version SET version = 99", "later version"),
        })
        {
            var file = _folder.In(name);
            if (how == "empty")
            {
                await File.WriteAllTextAsync(file, "", Cancel);
            }
            else if (how.Length > 0)
            {
                if (name == "later.db")
                {
                    File.Copy(Records, file);
                }

                Sql(file, how);
            }

            var ran = await LastoffProgram.Run("restore", file, "--data", _folder.Path);
            Assert.Equal(2, ran.ExitCode);
            Assert.Contains(file, ran.Error);
            Assert.Contains(why, ran.Error);
        }

        Assert.Contains("3 entries", (await LastoffProgram.Run("verify", "--data", _folder.Path)).Output);
    }

    private static async Task Write(SimulatedDevice device, int entries)
    {
        for (var entry = 0; entry < entries; entry++)
        {
            device.Write();
        }

        await device.SendAsync(Cancel);
        Assert.Empty(device.Wrong);
        Assert.Equal(0, device.Waiting);
    }

    private async Task<string> Store() => (await _client.GetAsync("/api/jobs", Cancel)).Headers.GetValues("Lastoff-Store").Single();

    private string Records => _folder.In("lastoff.db");

    private static OperationNet Van() => OperationNet.From(MapReader.Read(File.ReadAllText(LastoffProgram.Demo("light-van.map.yaml")), "van").Map!);

    /// <summary>The newest backup, once it has so many entries; it is made soon after the start.</summary>
    private Task<string> BackupOf(long entries) => Backup(file => (long)Sql(file, "SELECT count(*) FROM entries")! == entries);

    /// <summary>The newest backup that can be read, once it is the one looked for.</summary>
    private async Task<string> Backup(Func<string, bool> isIt)
    {
        for (var tries = 0; tries < 200; tries++)
        {
            foreach (var file in Directory.EnumerateFiles(_folder.In("backups"), "*.db").OrderDescending())
            {
                try
                {
                    if (isIt(file))
                    {
                        return file;
                    }

                    break;
                }
                catch (SqliteException)
                {
                    // It is none.
                }
            }

            await Task.Delay(100, Cancel);
        }

        throw new TimeoutException("no such backup was made");
    }

    private static object? Sql(string file, string sql)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar();
    }
}
