using System.Diagnostics;
using System.Reflection;

namespace Lastoff.Tests.Program;

/// <summary>What running the program once gave.</summary>
public sealed record Ran(int ExitCode, string Output, string Error);

/// <summary>Runs the published <c>lastoff</c> as a process of its own, the way a user does.</summary>
public static class LastoffProgram
{
    public static string Repository => Metadata("Repository");

    /// <summary>The published program: compiled, trimmed and packed as a user is given it.</summary>
    public static string Path
    {
        get
        {
            var published = System.IO.Path.Combine(Repository, "out");
            // Or the tests would speak of a program that is not the one in the source.
            return new[] { "lastoff.dll", "Lastoff.Core.dll" }.All(file => WrittenAt(published, file) >= WrittenAt(System.IO.Path.Combine(Repository, "src/Lastoff/bin/Release/net10.0"), file))
                ? System.IO.Path.Combine(published, "lastoff.dll")
                : throw new InvalidOperationException("The published program is missing or older than the built one; run this, and the tests again: dotnet publish src/Lastoff -c Release -o out");
        }
    }

    public static string Demo(string name) => System.IO.Path.Combine(Repository, "demo", name);

    public static async Task<Ran> Run(params string[] arguments)
    {
        using var process = Start(arguments);
        var output = process.StandardOutput.ReadToEndAsync();
        var error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return new Ran(process.ExitCode, await output, await error);
    }

    public static Process Start(params string[] arguments)
    {
        return Process.Start(new ProcessStartInfo("dotnet", [Path, .. arguments])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
    }

    private static DateTime WrittenAt(string folder, string file) => File.GetLastWriteTimeUtc(System.IO.Path.Combine(folder, file));

    private static string Metadata(string key) =>
        typeof(LastoffProgram).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == key).Value!;
}
