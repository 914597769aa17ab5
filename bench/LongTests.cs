using System.Diagnostics;

namespace Lastoff.Bench;

/// <summary>Tests of which <c>./test</c> runs a short version, in full.</summary>
internal static class LongTests
{
    /// <summary>The light van from its first joint to the handover by thumb, and forty killed tabs.</summary>
    public static Task<int> InTheBrowserAsync(string repository) =>
        RunAsync(repository, "Lastoff.BrowserTests", ["*.WholeJobTests", "*.TabKilledTests"], new() { ["LASTOFF_WHOLE_JOB"] = "1", ["LASTOFF_TAB_KILLS"] = "40" });

    /// <summary>The costly properties, on ten times as many random cases.</summary>
    public static Task<int> PropertiesAsync(string repository) =>
        RunAsync(repository, "Lastoff.Tests", ["*Properties", "*.EditedMapTests", "*.TripSearchTests", "*.HandsSearchTests", "*.HandsPlannerTests"], new() { ["LASTOFF_TRIES"] = "10" });

    private static async Task<int> RunAsync(string repository, string project, IReadOnlyList<string> classes, Dictionary<string, string> environment)
    {
        var tests = Path.Combine(repository, "tests", project, "bin", "Release", "net10.0", $"{project}.dll");
        if (!File.Exists(tests))
        {
            Console.Error.WriteLine("The tests are not built; run ./test once, which builds them and installs what they need.");
            return 2;
        }

        var start = new ProcessStartInfo("dotnet", [tests, "--xunit-diagnostics", "on", "--filter-class", .. classes]);
        foreach (var (name, value) in environment)
        {
            start.Environment[name] = value;
        }

        using var running = Process.Start(start)!;
        await running.WaitForExitAsync();
        return running.ExitCode;
    }
}
