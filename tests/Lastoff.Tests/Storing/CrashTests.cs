using System.Net;
using Lastoff.Bench;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Storing;

/// <summary>The crash campaign in short; <c>bench -- crash</c> is the long one. No acknowledged entry is lost, none is there twice, all sides stand alike.</summary>
public class CrashTests
{
    private static readonly string Map = File.ReadAllText(LastoffProgram.Demo("orchard-sprayer-pump.map.yaml"));

    [Fact]
    public async Task Killed_over_and_over_on_SQLite()
    {
        using var folder = new TemporaryFolder();
        await using var server = new ServerProcess(LastoffProgram.Path, "--data", folder.Path);
        Sound(await new CrashCampaign(server, Map, seed: 1).KillAsync(4));
        await server.StopAsync();
        Assert.Equal(0, (await LastoffProgram.Run("verify", "--data", folder.Path)).ExitCode);
    }

    [Fact]
    public async Task Killed_over_and_over_on_PostgreSQL()
    {
        var store = TestPostgres.NewWorkshop();
        await using var server = new ServerProcess(LastoffProgram.Path, store);
        Sound(await new CrashCampaign(server, Map, seed: 2).KillAsync(4));
        Assert.Equal(0, (await LastoffProgram.Run(["verify", .. store])).ExitCode);
    }

    [Fact]
    public async Task The_database_stopped_and_started_under_the_server()
    {
        using var cluster = PostgresCluster.Start(LastoffProgram.Repository);
        await using var server = new ServerProcess(LastoffProgram.Path, "--postgres", cluster.Connection);
        var result = await new CrashCampaign(server, Map, seed: 3).TakeAwayAsync(2, time => cluster.Stop(atOnce: time % 2 == 0), cluster.StartAgain);
        Sound(result);
        Assert.True(result.Away > 0);
        Assert.True(server.IsRunning);
    }

    [Fact]
    public async Task The_disk_full_under_the_server()
    {
        using var disk = SmallDisk.Make();
        await using var server = disk.Serve(LastoffProgram.Path);
        var result = await new CrashCampaign(server, Map, seed: 4).TakeAwayAsync(2, _ => disk.Fill(), disk.Free);
        Sound(result);
        Assert.True(result.Away > 0);
        Assert.True(server.IsRunning);
    }

    [Fact]
    public async Task The_health_of_a_server_whose_database_is_away_is_503_with_a_sentence_and_well_again_after()
    {
        using var cluster = PostgresCluster.Start(LastoffProgram.Repository);
        await using var server = new ServerProcess(LastoffProgram.Path, "--postgres", cluster.Connection);
        await server.StartAsync();
        using var client = new HttpClient { BaseAddress = server.Address };
        cluster.Stop(atOnce: false);
        foreach (var path in (string[])["/health", "/api/jobs", "/api/maps"])
        {
            var answer = await client.GetAsync(path, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
            Assert.Contains("is away", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        }

        cluster.StartAgain();
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/health", TestContext.Current.CancellationToken)).StatusCode);
    }

    [Fact]
    public async Task The_health_of_a_server_whose_disk_is_full_is_503_with_a_sentence_and_well_again_after_and_it_stops_in_peace()
    {
        using var disk = SmallDisk.Make();
        await using var server = disk.Serve(LastoffProgram.Path);
        await server.StartAsync();
        using var client = new HttpClient { BaseAddress = server.Address };
        var device = new SimulatedDevice("phone", client, new Random(5));
        device.Open(Core.Maps.OperationNet.From(Core.Maps.MapReader.Read(Map, "map").Map!));
        disk.Fill();
        // The log may have room of its own for a while.
        for (var tries = 0; tries < 2000 && device.AnsweredAway == 0; tries++)
        {
            device.Write();
            await device.SendAsync(TestContext.Current.CancellationToken);
        }

        var answer = await client.GetAsync("/health", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, answer.StatusCode);
        Assert.Contains("disk", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        disk.Free();
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/health", TestContext.Current.CancellationToken)).StatusCode);
        await device.SendAsync(TestContext.Current.CancellationToken);
        Assert.Equal(0, device.Waiting);
        Assert.Empty(device.Wrong);
        disk.Fill();
        Assert.Equal(0, await server.StopAsync());
        disk.Free();
        Assert.Equal(0, (await LastoffProgram.Run("verify", "--data", disk.Path)).ExitCode);
    }

    private static void Sound(CrashResult result)
    {
        Assert.Empty(result.Wrong);
        Assert.True(result.IsSound, result.ToString());
        Assert.True(result.Acknowledged > 20, result.ToString());
    }
}
