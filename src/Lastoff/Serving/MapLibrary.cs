using Lastoff.Core.Maps;

namespace Lastoff.Serving;

/// <summary>A map the workshop has.</summary>
public sealed record ListedMap(string Name, string Title, bool Invented);

/// <summary>The workshop's map files, read from its data folder each time they are asked for so that an edited file counts at once.</summary>
public sealed class MapLibrary(string folder)
{
    private const string Ending = ".map.yaml";

    /// <summary>The maps without faults. A faulty one stays out until <c>lastoff check</c> finds nothing in it.</summary>
    public IReadOnlyList<ListedMap> List()
    {
        var maps = new List<ListedMap>();
        foreach (var file in Directory.EnumerateFiles(folder, "*" + Ending).Order(StringComparer.Ordinal))
        {
            if (Readable(file) is { } text && MapReader.Read(text, file) is { Map: { } map } && map.Name + Ending == Path.GetFileName(file))
            {
                maps.Add(new ListedMap(map.Name, map.Title, map.Invented));
            }
        }

        return maps;
    }

    /// <summary>The text of a map, or null when there is none of that name.</summary>
    public string? Text(string name)
    {
        // A name holds nothing that could lead out of the folder.
        if (name.Length > 100 || !name.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-'))
        {
            return null;
        }

        var file = Path.Combine(folder, name + Ending);
        return Readable(file);
    }

    /// <summary>One file that cannot be read must not keep the others from the devices.</summary>
    private static string? Readable(string file)
    {
        try
        {
            return File.ReadAllText(file);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
