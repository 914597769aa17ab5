using System.Collections.Concurrent;
using Lastoff.Core.Maps;

namespace Lastoff.Storing;

/// <summary>A map the workshop has.</summary>
public sealed record ListedMap(string Name, string Title, bool Invented);

/// <summary>The workshop's maps.</summary>
public sealed class MapLibrary(MapTexts texts)
{
    private readonly ConcurrentDictionary<string, (string Text, ListedMap? Map)> _read = [];

    /// <summary>The maps without faults, by name. A faulty one stays out until <c>lastoff check</c> finds nothing in it.</summary>
    public IReadOnlyList<ListedMap> List() =>
        [.. texts.All().OrderBy(map => map.Name, StringComparer.Ordinal).Select(map => Read(map.Name, map.Text)).OfType<ListedMap>()];

    /// <summary>The text of a map, or null when there is none of that name.</summary>
    // A name holds nothing that could lead out of a folder.
    public string? Text(string name) => IsName(name) ? texts.Find(name) : null;

    /// <summary>Every map's text, faulty or not.</summary>
    public IEnumerable<(string Name, string Text)> All() => texts.All();

    /// <summary>Keeps a map's text in place of any of the same name.</summary>
    /// <exception cref="ArgumentException">No map has such a name.</exception>
    public void Keep(string name, string text)
    {
        if (!IsName(name))
        {
            throw new ArgumentException($"“{name}” is no name of a map.", nameof(name));
        }

        texts.Keep(name, text);
    }

    private ListedMap? Read(string name, string text)
    {
        if (!_read.TryGetValue(name, out var known) || known.Text != text)
        {
            known = (text, MapReader.Read(text, name).Map is { } map && map.Name == name ? new ListedMap(map.Name, map.Title, map.Invented) : null);
            _read[name] = known;
        }

        return known.Map;
    }

    private static bool IsName(string name) => name.Length is > 0 and <= 100 && name.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-');
}
