using System.Reflection;

namespace Lastoff.Bench;

/// <summary>Where the program under measurement is.</summary>
internal static class Built
{
    public static string Repository => typeof(Built).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == nameof(Repository)).Value!;

    public static string Lastoff => Path.Combine(Repository, "src", "Lastoff", "bin", "Release", "net10.0", "lastoff.dll");
}
