using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace Lastoff.Bench;

/// <summary>The real program serving, in a process of its own, on a port of its own that it keeps when it is started again.</summary>
public sealed class ServerProcess : IAsyncDisposable
{
    private readonly string _program;
    private readonly IReadOnlyList<string> _arguments;
    private TaskCompletionSource _ready = new();
    private Task _reading = Task.CompletedTask;
    private Process? _process;

    /// <param name="program">The path of <c>lastoff.dll</c>.</param>
    /// <param name="arguments">What <c>lastoff serve</c> is given besides its address.</param>
    public ServerProcess(string program, params IReadOnlyList<string> arguments)
        : this(FreePort(), program, arguments)
    {
    }

    /// <param name="port">One that nobody has.</param>
    /// <param name="program">The path of <c>lastoff.dll</c>.</param>
    /// <param name="arguments">What <c>lastoff serve</c> is given besides its address.</param>
    public ServerProcess(int port, string program, params IReadOnlyList<string> arguments)
    {
        (_program, _arguments) = (program, arguments);
        Address = new Uri($"http://localhost:{port}");
    }

    public Uri Address { get; }

    /// <summary>Further addresses to serve on; none as a rule.</summary>
    public IReadOnlyList<string> Also { get; init; } = [];

    /// <summary>Environment variables the process gets besides its own.</summary>
    public Dictionary<string, string> Environment { get; } = [];

    /// <summary>A shell command that is run in the process before the program takes its place; null as a rule.</summary>
    public string? Before { get; init; }

    /// <summary>The lines it has printed since it was started.</summary>
    public List<string> Printed { get; } = [];

    /// <summary>The number of the process.</summary>
    public int Id => _process!.Id;

    public bool IsRunning => _process is { HasExited: false };

    /// <summary>Starts it and waits until it is ready.</summary>
    /// <exception cref="InvalidOperationException">It ended instead; the message is what it said.</exception>
    public async Task StartAsync()
    {
        Begin();
        await _ready.Task;
    }

    /// <summary>Starts it and does not wait.</summary>
    public void Begin()
    {
        Printed.Clear();
        string[] serve = [_program, "serve", "--urls", string.Join(';', Also.Prepend(Address.OriginalString)), .. _arguments];
        var start = Before is null
            ? new ProcessStartInfo("dotnet", serve)
            : new ProcessStartInfo("bash", ["-c", $"{Before}; exec dotnet \"$@\"", "bash", .. serve]);
        (start.RedirectStandardOutput, start.RedirectStandardError) = (true, true);
        foreach (var (name, value) in Environment)
        {
            start.Environment[name] = value;
        }

        _ready = new TaskCompletionSource();
        // Told to nobody when nobody waits for the start.
        _ = _ready.Task.ContinueWith(task => task.Exception, TaskScheduler.Default);
        _process = Process.Start(start)!;
        var error = ReadAsync(_process.StandardError);
        _reading = Task.WhenAll(error, ReadAsync(_process.StandardOutput, error));
    }

    /// <summary>Ends it with kill -9: it gets no chance to do anything more.</summary>
    public async Task KillAsync()
    {
        if (_process is { } process)
        {
            process.Kill(entireProcessTree: true);
            await process.WaitForExitAsync();
            await _reading;
            process.Dispose();
            _process = null;
        }
    }

    /// <summary>Asks it to end, and waits until it has.</summary>
    /// <returns>Its exit code.</returns>
    public async Task<int> StopAsync()
    {
        using (var kill = Process.Start("kill", ["-TERM", $"{_process!.Id}"]))
        {
            await kill.WaitForExitAsync();
        }

        await _process.WaitForExitAsync();
        await _reading;
        var code = _process.ExitCode;
        _process.Dispose();
        _process = null;
        return code;
    }

    public async ValueTask DisposeAsync() => await KillAsync();

    /// <summary>Reads all it prints, so that its pipes are never full.</summary>
    private async Task ReadAsync(StreamReader from, Task? error = null)
    {
        var ready = _ready;
        while (await from.ReadLineAsync() is { } line)
        {
            lock (Printed)
            {
                Printed.Add(line);
            }

            if (line.StartsWith("Lastoff is ready", StringComparison.Ordinal))
            {
                ready.TrySetResult();
            }
        }

        if (error is not null)
        {
            await error;
            ready.TrySetException(new InvalidOperationException($"The server did not start: {string.Join('\n', Printed)}"));
        }
    }

    /// <summary>A port that nobody has at the moment.</summary>
    public static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
