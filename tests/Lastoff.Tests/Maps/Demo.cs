using Lastoff.Core.Maps;

namespace Lastoff.Tests.Maps;

/// <summary>The demo maps, as the tests' build copies them beside it.</summary>
internal static class Demo
{
    public static string FileName(string name) => $"{name}.map.yaml";

    public static string Text(string name) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "demo", FileName(name)));

    public static Map Map(string name) => MapReader.Read(Text(name), FileName(name)).Map!;
}
