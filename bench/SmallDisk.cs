using System.Diagnostics;

namespace Lastoff.Bench;

/// <summary>A disk of a few megabytes, in memory, that can be filled to the last byte. Only root can mount one.</summary>
public sealed class SmallDisk : IDisposable
{
    private const int Megabytes = 24;

    private SmallDisk(string path) => Path = path;

    public string Path { get; }

    /// <exception cref="InvalidOperationException">It cannot be mounted.</exception>
    public static SmallDisk Make()
    {
        var disk = new SmallDisk(Directory.CreateTempSubdirectory("lastoff-disk-").FullName);
        Run("mount", "-t", "tmpfs", "-o", $"size={Megabytes}m", "tmpfs", disk.Path);
        return disk;
    }

    public void Fill()
    {
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

    public void Free() => File.Delete(Filler);

    public void Dispose()
    {
        Run("umount", "--lazy", Path);
        Directory.Delete(Path);
    }

    private string Filler => System.IO.Path.Combine(Path, "filler");

    private static void Run(params string[] command)
    {
        using var process = Process.Start(new ProcessStartInfo(command[0], command[1..]) { RedirectStandardError = true })!;
        var error = process.StandardError.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{string.Join(' ', command)}: {error.Trim()}");
        }
    }
}
