using System.Text.Json.Nodes;
using Lastoff.Bench;
using Lastoff.Core.Maps;
using Lastoff.Tests.Program;

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
        var job = device.Open(OperationNet.From(MapReader.Read(await File.ReadAllTextAsync(LastoffProgram.Demo("light-van.map.yaml"), Cancel), "van").Map!));
        await Write(device, 5);
        // The start backs up what it finds.
        await _server.StopAsync();
        await _server.StartAsync();
        var backup = await Newest();
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
        device.Open(OperationNet.From(MapReader.Read(await File.ReadAllTextAsync(LastoffProgram.Demo("light-van.map.yaml"), Cancel), "van").Map!));
        await Write(device, 3);
        await _server.StopAsync();
        File.Copy(Path.Combine(_folder.Path, "lastoff.db"), _folder.In("copy"));
        await _server.StartAsync();
        var before = await Store();
        await Write(device, 3);
        await _server.StopAsync();
        await _server.StartAsync();
        Assert.Equal(before, await Store());
        // The start's own backup has all six by now.
        await Newest();
        await _server.StopAsync();
        File.Copy(_folder.In("copy"), Path.Combine(_folder.Path, "lastoff.db"), overwrite: true);
        await _server.StartAsync();
        Assert.NotEqual(before, await Store());
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

    /// <summary>The newest backup that has entries; it is made soon after the start.</summary>
    private async Task<string> Newest()
    {
        for (var tries = 0; tries < 100; tries++)
        {
            var list = JsonNode.Parse((await LastoffProgram.Run("restore", "--json", "--data", _folder.Path)).Output)!["backups"]!.AsArray();
            if (list.Count > 0 && new FileInfo((string)list[0]!).LastWriteTimeUtc > DateTime.UtcNow.AddSeconds(-20))
            {
                return (string)list[0]!;
            }

            await Task.Delay(100, Cancel);
        }

        throw new TimeoutException("no backup was made");
    }
}
