using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Lastoff.Bench;
using Lastoff.Core.Maps;
using Lastoff.Tests.Doors;
using Lastoff.Tests.Serving;
using Npgsql;

namespace Lastoff.Tests.Storing;

/// <summary>Several servers on one PostgreSQL database.</summary>
public class SeveralServersTests
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_comes_in_at_one_is_told_and_had_at_the_other_and_no_device_misses_any()
    {
        var store = TestPostgres.NewWorkshop();
        await using var first = await RunningServer.Start(store);
        await using var second = await RunningServer.Start(store);
        Assert.Equal(await Store(first.Client), await Store(second.Client));
        Assert.Equal(await first.Client.GetStringAsync("/api/maps", Cancel), await second.Client.GetStringAsync("/api/maps", Cancel));
        Assert.Equal(await first.Client.GetStringAsync("/api/jobs", Cancel), await second.Client.GetStringAsync("/api/jobs", Cancel));

        await using var line = await LiveLine.Open(second.Client);
        SimulatedDevice[] devices = [new("left", first.Client, new Random(1)), new("right", second.Client, new Random(2))];
        var job = devices[0].Open(OperationNet.From(MapReader.Read(await first.Client.GetStringAsync("/api/maps/light-van", Cancel), "van").Map!));
        await devices[0].SendAsync(Cancel);
        await line.News();

        // A reader who asks over and over while both write gets every entry once, in the order of arrival.
        devices[1].Join(job, devices[0].On(job));
        var read = new List<string>();
        long after = 0;
        var writing = Task.WhenAll(devices.Select(device => Task.Run(async () =>
        {
            for (var entry = 0; entry < 100; entry++)
            {
                device.Write();
                await device.SendAsync(Cancel);
            }
        }, Cancel)));
        for (var isLast = false; !isLast;)
        {
            isLast = writing.IsCompleted;
            var page = (await second.Client.GetFromJsonAsync<JsonObject>($"/api/jobs/{job}/entries?after={after}", Cancel))!;
            read.AddRange(page["lines"]!.AsArray().Select(l => (string)l!));
            after = (long)page["upTo"]!;
        }

        await writing;
        Assert.All(devices, device => Assert.Empty(device.Wrong));
        Assert.Equal(201, read.Count);
        Assert.Equal(201, read.Distinct().Count());
    }

    [Fact]
    public async Task A_phone_shut_out_at_one_is_out_at_the_other_once_that_has_heard_of_it()
    {
        var store = TestPostgres.NewWorkshop();
        await using var first = await RunningServer.Start(store);
        await using var second = await RunningServer.Start(store);
        using var owner = new Guest(first);
        Assert.Equal(HttpStatusCode.OK, (await owner.Post("/api/doors/owner", new { name = "Invented Owner", password = "a sentence that is long", label = "Desk" })).StatusCode);
        using var phone = new Guest(first);
        Assert.Equal(HttpStatusCode.OK, (await phone.Post("/api/doors/join", new { value = await owner.Invited(), label = "Left bay" })).StatusCode);
        using var phoneAtSecond = new Guest(second);
        phoneAtSecond.Cookies.Add(second.Address, phone.Cookies.GetCookies(first.Address));
        await using var line = await LiveLine.Open(phoneAtSecond.Client);
        Assert.Equal(HttpStatusCode.OK, (await phoneAtSecond.Get("/api/jobs")).StatusCode);

        var lost = (string)(await owner.Read("/api/devices")).AsArray().Single(device => (string)device!["label"]! == "Left bay")!["id"]!;
        Assert.Equal(HttpStatusCode.NoContent, (await owner.Post($"/api/devices/{lost}/out")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await phone.Get("/api/jobs")).StatusCode);
        // The second server hangs up by the word of the first: its own look comes later than the line's patience here.
        await line.End();
        Assert.Equal(HttpStatusCode.Unauthorized, (await phoneAtSecond.Get("/api/jobs")).StatusCode);
    }

    [Fact]
    public async Task Workshops_in_one_database_have_nothing_to_do_with_each_other()
    {
        await using var first = await RunningServer.Start(TestPostgres.NewWorkshop());
        await using var second = await RunningServer.Start(TestPostgres.NewWorkshop());
        var device = new SimulatedDevice("left", first.Client, new Random(1));
        device.Open(OperationNet.From(MapReader.Read(await first.Client.GetStringAsync("/api/maps/light-van", Cancel), "van").Map!));
        await device.SendAsync(Cancel);
        var waiting = (await second.Client.GetFromJsonAsync<JsonArray>("/api/jobs", Cancel))!.Count;
        Assert.Equal(waiting + 1, (await first.Client.GetFromJsonAsync<JsonArray>("/api/jobs", Cancel))!.Count);
        Assert.NotEqual(await Store(first.Client), await Store(second.Client));
    }

    [Fact]
    public async Task A_person_of_the_database_without_any_privilege_but_the_tables_will_do_and_a_dump_read_back_is_another_store()
    {
        await using var source = NpgsqlDataSource.Create(TestPostgres.Connection);
        var name = $"t{Guid.NewGuid():N}";
        await Run(source, $"CREATE ROLE {name} LOGIN");
        await Run(source, $"CREATE DATABASE {name} OWNER {name}");
        var connection = new NpgsqlConnectionStringBuilder(TestPostgres.Connection) { Database = name, Username = name }.ToString();
        await using var server = await RunningServer.Start(["--postgres", connection]);
        var before = await Store(server.Client);
        await server.KillAndRestart();
        Assert.Equal(before, await Store(server.Client));

        // What a dump does: the same rows in a table that is made anew.
        await using var inside = NpgsqlDataSource.Create(connection);
        await Run(inside, "CREATE TABLE again (LIKE entries INCLUDING ALL)");
        await Run(inside, "INSERT INTO again SELECT * FROM entries");
        await Run(inside, "DROP TABLE entries");
        await Run(inside, "ALTER TABLE again RENAME TO entries");
        Assert.NotEqual(before, await Store(server.Client));
    }

    [Fact]
    public async Task Settings_that_are_given_count_instead_of_the_usual_ones()
    {
        // While another holds its row a writing waits: one second as is asked for here, not the usual twenty.
        var workshop = $"test {Guid.NewGuid()}";
        await using var server = await RunningServer.Start(["--postgres", TestPostgres.Connection + ";CommandTimeout=1", "--workshop", workshop]);
        await using var source = NpgsqlDataSource.Create(TestPostgres.Connection);
        await using var other = await source.OpenConnectionAsync(Cancel);
        await using var transaction = await other.BeginTransactionAsync(Cancel);
        await using var hold = new NpgsqlCommand($"SELECT 1 FROM workshops WHERE name = '{workshop}' FOR UPDATE", other);
        await hold.ExecuteNonQueryAsync(Cancel);
        var watch = System.Diagnostics.Stopwatch.StartNew();
        var answer = await server.Client.PostAsync($"/api/jobs/{Guid.NewGuid()}/entries", new StringContent(""), Cancel);
        Assert.InRange(watch.Elapsed.TotalSeconds, 0.9, 15);
        Assert.Equal(System.Net.HttpStatusCode.ServiceUnavailable, answer.StatusCode);
    }

    private static async Task<string> Store(HttpClient client) => (await client.GetAsync("/api/jobs", Cancel)).Headers.GetValues("Lastoff-Store").Single();

    private static async Task Run(NpgsqlDataSource source, string sql)
    {
        await using var command = source.CreateCommand(sql);
        await command.ExecuteNonQueryAsync(Cancel);
    }
}
