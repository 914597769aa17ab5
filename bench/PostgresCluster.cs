using System.Diagnostics;
using System.Globalization;

namespace Lastoff.Bench;

/// <summary>A private PostgreSQL that can be stopped and started, in a folder of its own; see <c>tests/postgres-cluster</c>.</summary>
public sealed class PostgresCluster : IDisposable
{
    private readonly string _script;
    private readonly string _folder = Directory.CreateTempSubdirectory("lastoff-pg-").FullName;

    private PostgresCluster(string repository) => _script = Path.Combine(repository, "tests", "postgres-cluster");

    /// <summary>How to reach it.</summary>
    public string Connection { get; private set; } = "";

    /// <exception cref="InvalidOperationException">It does not start, or PostgreSQL is not installed.</exception>
    public static PostgresCluster Start(string repository)
    {
        var cluster = new PostgresCluster(repository);
        cluster.StartAgain();
        return cluster;
    }

    public void StartAgain() => Connection = Run("start", _folder).Trim();

    /// <param name="atOnce">As if the power failed: nothing is finished.</param>
    public void Stop(bool atOnce) => Run("stop", _folder, atOnce ? "immediate" : "fast");

    /// <summary>The seconds of processor time that all its processes have had.</summary>
    public double ProcessorSeconds()
    {
        var first = int.Parse(File.ReadLines(Path.Combine(_folder, "data", "postmaster.pid")).First(), CultureInfo.InvariantCulture);
        return Process.GetProcesses().Where(process => process.Id == first || ParentOf(process.Id) == first).Sum(process => process.TotalProcessorTime.TotalSeconds);
    }

    private static int ParentOf(int process)
    {
        // proc_pid_stat(5): the name in brackets, which may hold anything, the state, the parent.
        var stat = File.ReadAllText($"/proc/{process}/stat");
        return int.Parse(stat[(stat.LastIndexOf(')') + 1)..].Split(' ')[2], CultureInfo.InvariantCulture);
    }

    public void Dispose()
    {
        Stop(atOnce: true);
        Directory.Delete(_folder, recursive: true);
    }

    private string Run(params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(_script, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var (output, error) = (process.StandardOutput.ReadToEnd(), process.StandardError.ReadToEnd());
        process.WaitForExit();
        return process.ExitCode == 0 ? output : throw new InvalidOperationException($"PostgreSQL: {error.Trim()}");
    }
}
