using System.Diagnostics;

namespace Lastoff.Bench;

/// <summary>A folder whose disk can be filled to the last byte: a few megabytes of memory where they can be mounted, as root can; otherwise a limit on what the server may write to files.</summary>
public sealed class SmallDisk : IDisposable
{
    private const int Megabytes = 24;

    private readonly bool _isMounted;
    private ServerProcess? _server;

    private SmallDisk(string path, bool isMounted) => (Path, _isMounted) = (path, isMounted);

    public string Path { get; }

    public static SmallDisk Make()
    {
        var path = Directory.CreateTempSubdirectory("lastoff-disk-").FullName;
        return new SmallDisk(path, Environment.IsPrivilegedProcess && Run("mount", "-t", "tmpfs", "-o", $"size={Megabytes}m", "tmpfs", path));
    }

    /// <summary>A server with its records on this disk.</summary>
    public ServerProcess Serve(string program)
    {
        // Past its limit a process is ended, unless it does not hear that it is; then it is told that the file is too large.
        _server = new ServerProcess(program, "--data", Path) { Before = _isMounted ? null : "trap '' XFSZ" };
        if (!_isMounted)
        {
            // The runtime would keep its own code in a file.
            _server.Environment["DOTNET_EnableWriteXorExecute"] = "0";
        }

        return _server;
    }

    /// <exception cref="InvalidOperationException">No limit can be set.</exception>
    public void Fill()
    {
        if (!_isMounted)
        {
            Limit("0:");
            return;
        }

        using var filler = File.Create(Filler);
        var page = new byte[4096];
        try
        {
            while (true)
            {
                filler.Write(page);
                filler.Flush(flushToDisk: true);
            }
        }
        catch (IOException)
        {
            // Full.
        }
    }

    public void Free()
    {
        if (_isMounted)
        {
            File.Delete(Filler);
        }
        else
        {
            Limit("unlimited:");
        }
    }

    public void Dispose()
    {
        if (_isMounted)
        {
            Run("umount", "--lazy", Path);
        }

        Directory.Delete(Path, recursive: true);
    }

    private string Filler => System.IO.Path.Combine(Path, "filler");

    private void Limit(string soft)
    {
        if (!Run("prlimit", "--pid", $"{_server!.Id}", $"--fsize={soft}"))
        {
            throw new InvalidOperationException("No limit on files can be set for the server.");
        }
    }

    private static bool Run(params string[] command)
    {
        using var process = Process.Start(new ProcessStartInfo(command[0], command[1..]) { RedirectStandardError = true })!;
        process.StandardError.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0;
    }
}
