using System.Diagnostics;
using System.Reflection;

namespace Lastoff.Tests.Program;

/// <summary>What running the program once gave.</summary>
public sealed record Ran(int ExitCode, string Output, string Error);

/// <summary>Runs the built <c>lastoff</c> as a process of its own, the way a user does.</summary>
public static class LastoffProgram
{
    public static string Repository => Metadata("Repository");

    /// <summary>The built program, or in the browser's tests the published one, whose app is trimmed and packed as a user is given it.</summary>
    public static string Path => System.IO.Path.Combine(Repository, Metadata("Program"), "lastoff.dll");

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

    private static string Metadata(string key) =>
        typeof(LastoffProgram).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == key).Value!;
}
