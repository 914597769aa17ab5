using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Lastoff.Tests.Program;

namespace Lastoff.Tests.Serving;

/// <summary>The real server in a process of its own, with its own data folder and port.</summary>
public sealed class RunningServer : IAsyncDisposable
{
    private readonly string _data;
    private Process _process;

    private RunningServer(Process process, Uri address, string data)
    {
        _process = process;
        _data = data;
        Address = address;
        Client = new HttpClient { BaseAddress = address };
    }

    public Uri Address { get; }

    public HttpClient Client { get; }

    /// <summary>Starts on an empty data folder, with the invented workshop moved in.</summary>
    public static async Task<RunningServer> Start()
    {
        var data = Directory.CreateTempSubdirectory("lastoff-").FullName;
        var address = new Uri($"http://localhost:{FreePort()}");
        var process = await Serve(address, data);
        return new RunningServer(process, address, data);
    }

    /// <summary>Kills the server without warning and starts it again on the same folder.</summary>
    public async Task KillAndRestart()
    {
        await KillAsync();
        _process = await Serve(Address, _data);
    }

    /// <summary>Kills the server, takes its records away and starts it again: a machine set up anew.</summary>
    public async Task LoseEverything()
    {
        await KillAsync();
        Directory.Delete(_data, recursive: true);
        _process = await Serve(Address, _data);
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await KillAsync();
        Directory.Delete(_data, recursive: true);
    }

    private async Task KillAsync()
    {
        _process.Kill(entireProcessTree: true);
        await _process.WaitForExitAsync();
        _process.Dispose();
    }

    private static async Task<Process> Serve(Uri address, string data)
    {
        var process = LastoffProgram.Start("serve", "--urls", address.OriginalString, "--data", data, "--demo", LastoffProgram.Demo(""));
        while (await process.StandardOutput.ReadLineAsync() is { } line)
        {
            if (line.StartsWith("Lastoff is ready", StringComparison.Ordinal))
            {
                return process;
            }
        }

        throw new InvalidOperationException($"The server did not start: {await process.StandardError.ReadToEndAsync()}");
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
