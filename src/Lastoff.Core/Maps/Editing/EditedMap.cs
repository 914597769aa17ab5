namespace Lastoff.Core.Maps.Editing;

/// <summary>A map's text that is changed one field at a time. Comments, blank lines, order, line ends and every other field stay as they are, and it need not be without faults.</summary>
public sealed class EditedMap
{
    private readonly YamlText _yaml;

    private EditedMap(YamlText yaml)
    {
        _yaml = yaml;
        Items = [.. Enum.GetValues<MapSection>().SelectMany(section =>
            (yaml.Root.Find(SectionFields.Heading(section))?.Value as YamlList)?.Items.Index()
                .Where(item => item.Item is YamlMapping)
                .Select(item => new EditedItem(section, item.Index, (YamlMapping)item.Item)) ?? [])];
    }

    public string Text => _yaml.Text;

    /// <summary>What the map is called on screen; empty when it says nothing.</summary>
    public string Title => (_yaml.Root.Find("title")?.Value as YamlScalar)?.Text.Trim() ?? "";

    /// <summary>Everything in the map's lists, in the order of the sections and then of the file.</summary>
    public IReadOnlyList<EditedItem> Items { get; }

    /// <summary>Takes the text apart. It may have every fault of a map as long as it is YAML; else the sentence says which line is not.</summary>
    public static Answer<EditedMap> Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return Mapped(YamlText.Read(text));
    }

    /// <summary>A name for a map called so: lower-case letters, digits and hyphens.</summary>
    public static string NameFor(string title) => NewIdentifier.For(title, []);

    /// <summary>The text of a map with nothing in it yet but what it is called.</summary>
    public static string New(string name, string title) =>
        $"format: 1\n{YamlWriter.Entry(new YamlEntry("name", 0, new YamlScalar(0, name, false)))}\n{YamlWriter.Entry(new YamlEntry("title", 0, new YamlScalar(0, title, false)))}\n";

    /// <summary>The item that stands at the start of a path such as "joints[3].holds[0]"; null when it is none's.</summary>
    public EditedItem? At(string path) => Items.FirstOrDefault(item => path == item.Path || path.StartsWith($"{item.Path}.", StringComparison.Ordinal));

    /// <summary>Every place that names the id, in the order of <see cref="Items"/>.</summary>
    public IReadOnlyList<NameUse> Uses(string id) => id.Length == 0 ? [] : [.. NameUse.Of(id, Items)];

    /// <summary>Gives a field, or one within it such as "tool.drive", a text, number or flag; an empty text takes the field out.</summary>
    public Answer<EditedMap> Set(EditedItem item, string field, string text)
    {
        var value = text.Trim();
        return value == item.Text(field) && value.Length > 0 ? this
            : value.Length == 0 ? TakeOut(item, field)
            : Put(item, field, new YamlScalar(0, value, SectionFields.IsBare(EditedItem.Split(field).Within ?? field)));
    }

    /// <summary>Gives an item another name, and with it what is called after it: the fluid that goes in new, the look for its leaks.</summary>
    public Answer<EditedMap> Rename(EditedItem item, string name)
    {
        var (had, now) = (item.Text("name"), name.Trim());
        List<EditedItem> after = had.Length == 0 || now.Length == 0 ? []
            : [.. Items.Where(other => other.Text("for") == item.Id && (other.Text("name") == had || other.Text("name").EndsWith($": {had}", StringComparison.Ordinal)))];
        return after.Aggregate(Set(item, "name", now), (so, other) => so.Found ? so.Value.Set(so.Value.At(other.Path)!, "name", other.Text("name")[..^had.Length] + now) : so);
    }

    public Answer<EditedMap> TakeOut(EditedItem item, string field)
    {
        var (owner, within) = EditedItem.Split(field);
        return item.Value(field) is null ? this
            : Mapped(within is not null && item.Value(owner) is YamlMapping { Entries.Count: > 1 } mapping ? _yaml.TakeOut(mapping, within) : _yaml.TakeOut(item.Node, owner));
    }

    /// <summary>Puts a name into a list such as "holds" or "reach.clear", or takes it out of it.</summary>
    public Answer<EditedMap> Tick(EditedItem item, string field, string name, bool isIn)
    {
        var list = item.Value(field) as YamlList;
        var index = list?.Items.ToList().FindIndex(listed => listed is YamlScalar scalar && scalar.Text.Trim() == name) ?? -1;
        return (list, index >= 0) switch
        {
            (_, var isThere) when isThere == isIn => this,
            (null or { Items.Count: 0 }, _) => Put(item, field, new YamlList(0, [new YamlScalar(0, name, false)])),
            ({ Items.Count: 1 }, true) => TakeOut(item, field),
            (_, true) => Mapped(_yaml.TakeOut(list!, index)),
            _ => Mapped(_yaml.Append(list!, new YamlScalar(0, name, false))),
        };
    }

    /// <summary>Adds an item at the end of its section; its id is made from its name.</summary>
    public Answer<EditedMap> Add(MapSection section, string name)
    {
        YamlMapping item = new(0, [Field("id", NewIdentifier.For(name, [.. Items.Select(i => i.Id)])), Field("name", name.Trim())]);
        var heading = SectionFields.Heading(section);
        return Mapped(_yaml.Root.Find(heading)?.Value is YamlList { Items.Count: > 0 } list
            ? _yaml.Append(list, item)
            : _yaml.Put(_yaml.Root, heading, new YamlList(0, [item]), SectionFields.OfMap));
    }

    /// <summary>Takes an item out, unless something else of the map still names it: then the sentence says what does.</summary>
    public Answer<EditedMap> Remove(EditedItem item)
    {
        List<NameUse> uses = [.. Uses(item.Id).Where(use => use.By != item)];
        if (uses.Count > 0 && Items.Count(other => other.Id == item.Id) == 1)
        {
            List<string> who = [.. uses.Select(use => $"“{use.By.Called}”").Distinct()];
            var named = who.Count <= 3 ? string.Join(" and ", new[] { string.Join(", ", who[..^1]), who[^1] }.Where(w => w.Length > 0)) : $"{string.Join(", ", who[..3])} and {who.Count - 3} more";
            return Answer.None<EditedMap>($"“{item.Called}” stays, because {named} still {(who.Count == 1 ? "names" : "name")} it; take it out there first.");
        }

        var heading = SectionFields.Heading(item.Section);
        var list = (YamlList)_yaml.Root.Find(heading)!.Value;
        return Mapped(list.Items.Count == 1 ? _yaml.TakeOut(_yaml.Root, heading) : _yaml.TakeOut(list, item.Index));
    }

    /// <summary>What is written short becomes written out when a field is set that the short form has no room for.</summary>
    private Answer<EditedMap> Put(EditedItem item, string field, YamlNode value)
    {
        var (owner, within) = EditedItem.Split(field);
        var order = SectionFields.Of(item.Section);
        var old = item.Node.Find(owner)?.Value;
        return Mapped((within, old) switch
        {
            (null, _) => _yaml.Put(item.Node, owner, value, order),
            (_, YamlMapping mapping) => _yaml.Put(mapping, within, value, SectionFields.Within),
            _ when within == SectionFields.Short(owner) => _yaml.Put(item.Node, owner, value, order),
            (_, null or YamlScalar { IsEmpty: true }) => _yaml.Put(item.Node, owner, new YamlMapping(0, [new YamlEntry(within, 0, value)]), order),
            _ => _yaml.Put(item.Node, owner, new YamlMapping(0, [new YamlEntry(SectionFields.Short(owner) ?? "name", 0, old), new YamlEntry(within, 0, value)]), order),
        });
    }

    private static YamlEntry Field(string key, string text) => new(key, 0, new YamlScalar(0, text, false));

    private static Answer<EditedMap> Mapped(Answer<YamlText> yaml) => yaml.Found ? new EditedMap(yaml.Value) : Answer.None<EditedMap>(yaml.Sentence);
}
