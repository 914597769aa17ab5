namespace Lastoff.Core.Maps;

/// <summary>A YAML document as plain values with their lines: scalars, lists, mappings.</summary>
internal abstract record YamlNode(int Line)
{
    /// <summary>The characters of the text that say it; of what is written in block style, from its first entry to the end of its last.</summary>
    public Extent At { get; init; }

    /// <summary>Whether both say the same, however they are written.</summary>
    public static bool SaySame(YamlNode a, YamlNode b) => (a, b) switch
    {
        (YamlScalar x, YamlScalar y) => x.Text == y.Text && x.IsEmpty == y.IsEmpty,
        (YamlList x, YamlList y) => x.Items.Count == y.Items.Count && x.Items.Zip(y.Items).All(pair => SaySame(pair.First, pair.Second)),
        (YamlMapping x, YamlMapping y) => x.Entries.Count == y.Entries.Count
            && x.Entries.Zip(y.Entries).All(pair => pair.First.Key == pair.Second.Key && SaySame(pair.First.Value, pair.Second.Value)),
        _ => false,
    };
}

/// <summary>A stretch of a text, in characters.</summary>
internal readonly record struct Extent(int Start, int End);

/// <param name="IsPlain">Written without quotes, so that it may be a number or a flag.</param>
internal sealed record YamlScalar(int Line, string Text, bool IsPlain) : YamlNode(Line)
{
    public bool IsEmpty => IsPlain && Text is "" or "~" or "null";
}

internal sealed record YamlList(int Line, IReadOnlyList<YamlNode> Items) : YamlNode(Line)
{
    /// <summary>Written in brackets.</summary>
    public bool IsFlow { get; init; }
}

internal sealed record YamlMapping(int Line, IReadOnlyList<YamlEntry> Entries) : YamlNode(Line)
{
    /// <summary>Written in braces.</summary>
    public bool IsFlow { get; init; }

    public YamlEntry? Find(string key) => Entries.FirstOrDefault(entry => entry.Key == key);
}

internal sealed record YamlEntry(string Key, int Line, YamlNode Value)
{
    public Extent KeyAt { get; init; }

    public Extent At => new(KeyAt.Start, Value.At.End);
}
