namespace Lastoff.Core.Maps.Editing;

/// <summary>A part, joint, supply or other item as it stands in a map's text, whether or not it is right.</summary>
public sealed class EditedItem
{
    internal EditedItem(MapSection section, int index, YamlMapping node) => (Section, Index, Node) = (section, index, node);

    public MapSection Section { get; }

    /// <summary>How many of its section stand before it.</summary>
    public int Index { get; }

    /// <summary>Where it stands, as faults say it: "joints[3]".</summary>
    public string Path => $"{SectionFields.Heading(Section)}[{Index}]";

    /// <summary>"part", "joint", "supply"; "opening", "renewal", "proof".</summary>
    public string Sort => Section.Sort();

    /// <summary>The first line it stands on.</summary>
    public int Line => Node.Line;

    /// <summary>Empty when it has none.</summary>
    public string Id => Text("id");

    /// <summary>What it is called; its id when it has no name.</summary>
    public string Called => Text("name") is { Length: > 0 } name ? name : Id;

    /// <summary>The fields it has.</summary>
    public IEnumerable<string> Fields => Node.Entries.Select(entry => entry.Key);

    internal YamlMapping Node { get; }

    /// <summary>The text of a field, or of one within it such as "tool.drive"; empty when it has none.</summary>
    public string Text(string field) => Value(field) is YamlScalar { IsEmpty: false } scalar ? scalar.Text.Trim() : "";

    public bool Flag(string field) => Value(field) is YamlScalar { IsPlain: true, Text: "true" or "True" or "TRUE" };

    /// <summary>The names a field lists, such as "holds" or "reach.off".</summary>
    public IReadOnlyList<string> Names(string field) => Value(field) is YamlList list ? NamesIn(list) : [];

    /// <summary>The ways under "reach.either", as far as they are written as ways are.</summary>
    public IReadOnlyList<EditedWay> Ways => Value("reach.either") is YamlList ways ? [.. ways.Items.OfType<YamlMapping>().Select(EditedWay.From)] : [];

    internal static IReadOnlyList<string> NamesIn(YamlList list) => [.. list.Items.OfType<YamlScalar>().Select(name => name.Text.Trim())];

    internal YamlNode? Value(string field)
    {
        var (owner, within) = Split(field);
        var value = Node.Find(owner)?.Value;
        return within is null ? value
            : value is YamlMapping mapping ? mapping.Find(within)?.Value
            : SectionFields.Short(owner) == within ? value
            : null;
    }

    internal static (string Owner, string? Within) Split(string field) =>
        field.IndexOf('.') is >= 0 and var dot ? (field[..dot], field[(dot + 1)..]) : (field, null);
}
