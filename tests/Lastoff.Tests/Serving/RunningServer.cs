using Lastoff.Bench;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Serving;

/// <summary>The real server in a process of its own, with its own records and port, and the invented workshop moved in.</summary>
public sealed class RunningServer : IAsyncDisposable
{
    private readonly string _data;

    private RunningServer(string data, ServerProcess process)
    {
        _data = data;
        Process = process;
        Client = new HttpClient { BaseAddress = process.Address };
    }

    public ServerProcess Process { get; }

    public Uri Address => Process.Address;

    public HttpClient Client { get; }

    /// <summary>The data folder, when that is where the records are.</summary>
    public string Data => _data;

    /// <summary>Starts on an empty data folder.</summary>
    public static Task<RunningServer> Start() => Start([]);

    /// <param name="store">Where the records are, as <c>lastoff serve</c> is told; an empty data folder when it is told nothing.</param>
    public static Task<RunningServer> Start(IReadOnlyList<string> store) => Start(store, ["--demo", LastoffProgram.Demo("")]);

    /// <summary>Starts on an empty data folder, and nothing invented moves in.</summary>
    public static Task<RunningServer> StartEmpty(int port) => Start([], [], port: port);

    /// <summary>Starts on a copy of that data folder, which no server may be writing to.</summary>
    public static Task<RunningServer> StartOnCopy(string records, int port) => Start([], [], records, port);

    public static void Copy(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (var folder in Directory.EnumerateDirectories(from, "*", SearchOption.AllDirectories))
        {
            Directory.CreateDirectory(Path.Combine(to, Path.GetRelativePath(from, folder)));
        }

        foreach (var file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
        {
            File.Copy(file, Path.Combine(to, Path.GetRelativePath(from, file)));
        }
    }

    private static async Task<RunningServer> Start(IReadOnlyList<string> store, IReadOnlyList<string> demo, string? records = null, int? port = null)
    {
        var data = Directory.CreateTempSubdirectory("lastoff-").FullName;
        if (records is not null)
        {
            Copy(records, data);
        }

        var process = new ServerProcess(port ?? ServerProcess.FreePort(), LastoffProgram.Path, [.. store.Count > 0 ? store : ["--data", data], .. demo]);
        await process.StartAsync();
        return new RunningServer(data, process);
    }

    /// <summary>Kills the server without warning and starts it again on the same records.</summary>
    public async Task KillAndRestart()
    {
        await Process.KillAsync();
        await Process.StartAsync();
    }

    /// <summary>Kills the server, takes its records away and starts it again: a machine set up anew.</summary>
    public async Task LoseEverything()
    {
        await Process.KillAsync();
        Directory.Delete(_data, recursive: true);
        await Process.StartAsync();
    }

    /// <summary>Stops the server, starts it again and waits for the backup that it makes at its start.</summary>
    public async Task StopAndBackUp()
    {
        var had = Backups().Count();
        await Process.StopAsync();
        await Process.StartAsync();
        while (Backups().Count() == had)
        {
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }
    }

    /// <summary>Stops the server, brings the newest backup back and starts it again.</summary>
    public async Task GoBack()
    {
        await Process.StopAsync();
        Assert.Equal(0, (await LastoffProgram.Run("restore", Backups().Max()!, "--data", _data)).ExitCode);
        await Process.StartAsync();
    }

    private IEnumerable<string> Backups() => Directory.EnumerateFiles(Path.Combine(_data, "backups"), "*.db");

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await Process.DisposeAsync();
        Directory.Delete(_data, recursive: true);
    }
}
