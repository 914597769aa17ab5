using System.Text.RegularExpressions;

namespace Lastoff.Core.Maps;

/// <summary>Collects faults by the path of what they are about, and knows on which line each path stands.</summary>
/// <remarks>
/// A path is made of sections and indexes, "joints[3].reach.clear[1]", because names may be missing or used twice. Reader and check share
/// the list, so that a value the reader could not read is not complained about a second time.
/// </remarks>
internal sealed partial class FaultList
{
    private const int MostShown = 1_000;
    // Each guess at a name costs a search through all of them.
    private const int MostGuesses = 200;

    private readonly Dictionary<string, int> _lines = [];
    private readonly HashSet<string> _faulty = [];
    private readonly List<MapFault> _faults = [];

    public int Count => _faults.Count;

    /// <summary>The faults by line. A text that is nothing like a map gives more than anybody reads: the rest are counted.</summary>
    public IReadOnlyList<MapFault> ByLine()
    {
        List<MapFault> sorted = [.. _faults.OrderBy(f => f.Line)];
        return sorted.Count <= MostShown
            ? sorted
            : [.. sorted.Take(MostShown), new MapFault(sorted[MostShown].Line, "file", $"From here on there are {sorted.Count - MostShown} more faults; correct those above first.")];
    }

    /// <summary>Remembers where a path stands; the first to say so is right.</summary>
    public void Place(string path, int line) => _lines.TryAdd(path, line);

    public bool IsFaulty(string path) => _faulty.Contains(path);

    public bool Knows(string path) => _lines.ContainsKey(path);

    public void Add(string path, string sentence)
    {
        if (!Enclosing(path).Any(_faulty.Contains))
        {
            _faulty.Add(path);
            AddBetween(path, sentence);
        }
    }

    /// <summary>Adds a fault of the text itself, before it has any fields.</summary>
    public void AddToFile(int line, string sentence) => _faults.Add(new MapFault(line, "file", sentence));

    /// <summary>Adds a fault that is about how several things hang together, whatever else is wrong with any of them.</summary>
    public void AddBetween(string path, string sentence) =>
        _faults.Add(new MapFault(LineOf(path), OneLine(Field(path)), OneLine(sentence)) { Path = path });

    /// <summary>The end of a sentence about a name that is not known: a guess at the one meant, while there are few faults.</summary>
    public string DidYouMean(string written, IEnumerable<string> candidates, string otherwise = ".") =>
        Count < MostGuesses ? NearName.DidYouMean(written, candidates, otherwise) : otherwise;

    public int LineOf(string path) => Enclosing(path).Where(_lines.ContainsKey).Select(p => _lines[p]).FirstOrDefault(1);

    /// <summary>The path itself, then what it stands in, outwards.</summary>
    private static IEnumerable<string> Enclosing(string path)
    {
        for (var end = path.Length; end > 0; end = path.LastIndexOfAny(['.', '['], end - 1))
        {
            yield return path[..end];
        }
    }

    private static string Field(string path)
    {
        // By a function and not a text: what reads the signs in a text would be fetched by every phone.
        var named = Index().Replace(path, _ => "");
        var item = ItemPrefix().Match(path);
        return item.Success && item.Length < path.Length ? Index().Replace(path[item.Length..], _ => "") : named;
    }

    /// <summary>What the file says may hold line breaks, between quotes; a sentence about it does not.</summary>
    private static string OneLine(string text) => text.ReplaceLineEndings(" ").Replace('\t', ' ');

    [GeneratedRegex(@"\[\d+\]")]
    private static partial Regex Index();

    [GeneratedRegex(@"^[a-z_]+\[\d+\]\.")]
    private static partial Regex ItemPrefix();
}
