using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Tests.Doors;
using Lastoff.Tests.Program;
using Lastoff.Tests.Storing;

namespace Lastoff.Tests.Serving;

/// <summary>The backups, as the owner is shown them.</summary>
public sealed class BackupsOnSqliteTests() : AtTheDoor([])
{
    [Fact]
    public async Task A_backup_is_made_when_something_is_new_is_listed_and_can_be_brought_back_by_the_command_named()
    {
        await Make();
        var before = await Owner.Read("/api/backups");
        // Whether the server's own or this one came first, all is in it; without anything new there is no other.
        Assert.NotEmpty(before["backups"]!.AsArray());
        var again = await Make();
        Assert.Null(again["made"]);
        Assert.Equal(before["backups"]!.AsArray().Count, again["backups"]!.AsArray().Count);

        await Own();
        var made = await Make();
        var newest = made["backups"]![0]!;
        Assert.Equal((string)newest["file"]!, (string)made["made"]!);
        var file = Path.Combine((string)made["folder"]!, (string)newest["file"]!);
        Assert.Equal(new FileInfo(file).Length, (long)newest["bytes"]!);
        Assert.InRange((DateTime)newest["at"]!, DateTime.UtcNow.AddMinutes(-5), DateTime.UtcNow.AddSeconds(1));
        var times = made["backups"]!.AsArray().Select(backup => (DateTime)backup!["at"]!).ToList();
        Assert.Equal(times.OrderDescending(), times);

        await Server.Process.StopAsync();
        var restored = await LastoffProgram.Run("restore", file, "--data", (string)made["data"]!);
        Assert.Equal(("", 0), (restored.Error, restored.ExitCode));
        await Server.Process.StartAsync();
    }

    [Fact]
    public async Task While_another_backup_is_being_made_it_says_so_and_nothing_is_harmed()
    {
        await Make();
        await Own();
        using (new FileStream(Path.Combine(Server.Data, "backups", "lastoff.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None))
        {
            var refused = await Owner.Post("/api/backups");
            Assert.Equal(HttpStatusCode.Conflict, refused.StatusCode);
            Assert.StartsWith("No backup was made (", await Guest.Why(refused));
        }

        Assert.NotNull((await Make())["made"]);
    }

    /// <summary>The server makes one itself when it starts, and two at once are not made.</summary>
    private async Task<JsonNode> Make()
    {
        while (true)
        {
            var answer = await Owner.Post("/api/backups");
            if (answer.StatusCode != HttpStatusCode.Conflict)
            {
                Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
                return (await answer.Content.ReadFromJsonAsync<JsonNode>(Cancel))!;
            }

            await Task.Delay(100, Cancel);
        }
    }
}

public sealed class BackupsOnPostgresTests() : AtTheDoor(TestPostgres.NewWorkshop())
{
    [Fact]
    public async Task PostgreSQL_has_its_own_backups_and_it_says_so()
    {
        var list = await Owner.Read("/api/backups");
        Assert.Null(list["folder"]);
        Assert.Empty(list["backups"]!.AsArray());
        var refused = await Owner.Post("/api/backups");
        Assert.Equal(HttpStatusCode.Conflict, refused.StatusCode);
        Assert.Contains("PostgreSQL", await Guest.Why(refused));
    }
}
