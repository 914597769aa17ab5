namespace Lastoff.Tests.Maps;

/// <summary>The files of data/bad-maps.</summary>
internal static class BadMaps
{
    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "data", "bad-maps");

    public static IEnumerable<string> Names => Directory.GetFiles(Folder).Select(path => Path.GetFileName(path)).Order();

    public static string Text(string name) => File.ReadAllText(Path.Combine(Folder, name));

    /// <summary>What the lines say that start with the mark.</summary>
    public static IEnumerable<string> Marked(string text, string mark) =>
        text.Split('\n').Where(line => line.StartsWith(mark, StringComparison.Ordinal)).Select(line => line[mark.Length..]);
}
