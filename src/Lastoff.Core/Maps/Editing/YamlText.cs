namespace Lastoff.Core.Maps.Editing;

/// <summary>A YAML text beside what it says. One value is changed at a time, and every other character stays as it was.</summary>
/// <remarks>
/// Each change is read again and must say what was meant and nothing else; a text written so that this fails, with "? " before its keys for instance, is
/// left alone and refused in words.
/// </remarks>
internal sealed class YamlText
{
    private readonly string _lineBreak;

    private YamlText(string text, YamlMapping root)
    {
        (Text, Root) = (text, root);
        _lineBreak = FirstLineBreak(text);
    }

    public string Text { get; }

    public YamlMapping Root { get; }

    /// <summary>The text taken apart, or the first thing that is wrong with it.</summary>
    public static Answer<YamlText> Read(string text)
    {
        var faults = new FaultList();
        return MapText.IsReadable(text, faults) && YamlTree.Parse(text, faults) is { } root
            ? new YamlText(text, root)
            : Answer.None<YamlText>($"Line {faults.ByLine()[0].Line}: {faults.ByLine()[0].Sentence}");
    }

    /// <summary>Gives a field a value, in place of the one it has or after the fields that come before it in <paramref name="order"/>.</summary>
    public Answer<YamlText> Put(YamlMapping owner, string key, YamlNode value, IReadOnlyList<string> order)
    {
        var old = owner.Find(key);
        if (old is not null && YamlNode.SaySame(old.Value, value))
        {
            return this;
        }

        if (old is not null)
        {
            return Checked(Replaced(owner, old, value), owner, owner with { Entries = [.. owner.Entries.Select(e => ReferenceEquals(e, old) ? e with { Value = value } : e)] });
        }

        var entry = new YamlEntry(key, 0, value);
        var place = order.Take(order.ToList().IndexOf(key)).ToHashSet();
        var after = owner.Entries.ToList().FindLastIndex(e => place.Contains(e.Key));
        return Checked(Inserted(owner, after, entry), owner, owner with { Entries = [.. owner.Entries.Take(after + 1), entry, .. owner.Entries.Skip(after + 1)] });
    }

    public Answer<YamlText> TakeOut(YamlMapping owner, string key)
    {
        var index = owner.Entries.ToList().FindIndex(e => e.Key == key);
        if (index < 0)
        {
            return this;
        }

        List<Extent> all = [.. owner.Entries.Select(e => e.At)];
        var without = all.Count == 1 ? Spliced(owner.At, "{}") : owner.IsFlow ? WithoutFlow(all, index) : WithoutField(all, index);
        return Checked(without, owner, owner with { Entries = [.. owner.Entries.Where((_, i) => i != index)] });
    }

    public Answer<YamlText> Append(YamlList list, YamlNode item)
    {
        var text = list switch
        {
            { IsFlow: true, Items.Count: 0 } => Spliced(new Extent(list.At.Start + 1, list.At.Start + 1), YamlWriter.Inline(item)),
            { IsFlow: true } => Spliced(new Extent(list.Items[^1].At.End, list.Items[^1].At.End), $", {YamlWriter.Inline(item)}"),
            _ => InsertedAt(LineEnd(list.At.End), $"{_lineBreak}{Listed(item, Indent(list.At.Start), isFlow: list.Items[^1] is not YamlMapping { IsFlow: false })}"),
        };
        return Checked(text, list, list with { Items = [.. list.Items, item] });
    }

    public Answer<YamlText> TakeOut(YamlList list, int index)
    {
        List<Extent> all = [.. list.Items.Select(item => item.At)];
        var without = all.Count == 1 ? Spliced(list.At, "[]") : list.IsFlow ? WithoutFlow(all, index) : WithoutLines(Dash(list, index), all[index].End);
        return Checked(without, list, list with { Items = [.. list.Items.Where((_, i) => i != index)] });
    }

    private string Replaced(YamlMapping owner, YamlEntry old, YamlNode value)
    {
        var at = old.Value.At;
        if (at.Start == at.End)
        {
            return InsertedAt(at.End, Written(owner, value));
        }

        if (old.Value is YamlScalar or YamlList { IsFlow: true } or YamlMapping { IsFlow: true })
        {
            return Spliced(at, YamlWriter.Inline(value));
        }

        // A block starts on a line below its key, whose own comment stays.
        var start = LineStart(at.Start);
        var lineBreak = start - (Text[..start].EndsWith("\r\n", StringComparison.Ordinal) ? 2 : 1);
        var colon = Text.IndexOf(':', old.KeyAt.End);
        return colon < 0 || colon >= lineBreak ? Text : Spliced(new Extent(lineBreak, at.End), "").Insert(colon + 1, Written(owner, value));
    }

    private string Inserted(YamlMapping owner, int after, YamlEntry entry)
    {
        if (owner.IsFlow)
        {
            return after >= 0 ? InsertedAt(owner.Entries[after].At.End, $", {YamlWriter.Entry(entry)}")
                : InsertedAt(owner.At.Start + 1, owner.Entries.Count == 0 ? YamlWriter.Entry(entry) : $"{YamlWriter.Entry(entry)}, ");
        }

        var indent = Indent(owner.Entries[0].KeyAt.Start);
        var written = $"{entry.Key}:{Written(owner, entry.Value)}";
        return after < 0
            ? InsertedAt(owner.Entries[0].KeyAt.Start, $"{written}{_lineBreak}{indent}")
            : InsertedAt(LineEnd(owner.Entries[after].At.End), $"{_lineBreak}{(IsSection(owner, entry.Value) ? _lineBreak : "")}{indent}{written}");
    }

    /// <summary>What stands after the colon of a field.</summary>
    private string Written(YamlMapping owner, YamlNode value) => IsSection(owner, value)
        ? string.Concat(((YamlList)value).Items.Select(item => $"{_lineBreak}{Listed(item, "  ", isFlow: false)}"))
        : $" {YamlWriter.Inline(value)}";

    /// <summary>A list of whole items stands below its heading, not behind it.</summary>
    private bool IsSection(YamlMapping owner, YamlNode value) => owner == Root && !owner.IsFlow && value is YamlList { Items: [YamlMapping, ..] };

    private string Listed(YamlNode item, string indent, bool isFlow) => item is YamlMapping mapping && !isFlow
        ? $"{indent}- {string.Join($"{_lineBreak}{indent}  ", YamlWriter.Lines(mapping))}"
        : $"{indent}- {YamlWriter.Inline(item)}";

    /// <summary>The first of an item stands behind its dash, and the dash stays.</summary>
    private string WithoutField(List<Extent> all, int index)
    {
        var at = all[index];
        if (Text[LineStart(at.Start)..at.Start].Trim().Length == 0)
        {
            return WithoutLines(at.Start, at.End);
        }

        return index + 1 < all.Count && !Text[at.End..all[index + 1].Start].Contains('#') ? Spliced(at with { End = all[index + 1].Start }, "") : Spliced(at, "");
    }

    /// <summary>Takes its comma along; where comments stand about it, they stay.</summary>
    private string WithoutFlow(List<Extent> all, int index)
    {
        var at = all[index];
        if (index + 1 < all.Count)
        {
            var gap = Text[at.End..all[index + 1].Start];
            return gap.Contains('#') ? Spliced(at with { End = at.End + gap.IndexOf(',') + 1 }, gap[..gap.IndexOf(',')]) : Spliced(at with { End = all[index + 1].Start }, "");
        }

        var before = all[index - 1].End;
        return Text[before..at.Start].Contains('#') ? Spliced(at, "") : Spliced(at with { Start = before }, "");
    }

    private string WithoutLines(int start, int end)
    {
        var next = LineEnd(end);
        next += Text[next..] switch { ['\r', '\n', ..] => 2, ['\r' or '\n', ..] => 1, _ => 0 };
        return Spliced(new Extent(LineStart(start), next), "");
    }

    /// <summary>Where the dash of an item stands: the first thing after the item before it that is no comment.</summary>
    private int Dash(YamlList list, int index)
    {
        var at = index == 0 ? list.At.Start : list.Items[index - 1].At.End;
        while (at < Text.Length && Text[at] != '-')
        {
            at = Text[at] == '#' ? LineEnd(at) : at + 1;
        }

        return at;
    }

    private int LineStart(int at) => at == 0 ? 0 : Text.LastIndexOfAny(['\r', '\n'], at - 1) + 1;

    private int LineEnd(int at) => Text.IndexOfAny(['\r', '\n'], at) is >= 0 and var end ? end : Text.Length;

    private string Indent(int at) => new(' ', at - LineStart(at));

    private string InsertedAt(int at, string with) => Text.Insert(at, with);

    private string Spliced(Extent at, string with) => string.Concat(Text.AsSpan(0, at.Start), with, Text.AsSpan(at.End));

    private Answer<YamlText> Checked(string text, YamlNode old, YamlNode changed) =>
        Read(text) is { Value: { } read } && YamlNode.SaySame(read.Root, Exchanged(Root, old, changed))
            ? read
            : Answer.None<YamlText>($"Line {old.Line} of the file is written in a way that is changed by hand only; change it in the text.");

    private static string FirstLineBreak(string text)
    {
        var at = text.IndexOfAny(['\r', '\n']);
        return at < 0 || text[at] == '\n' ? "\n" : text[at..].StartsWith("\r\n", StringComparison.Ordinal) ? "\r\n" : "\r";
    }

    private static YamlNode Exchanged(YamlNode within, YamlNode old, YamlNode changed) => ReferenceEquals(within, old) ? changed : within switch
    {
        YamlList list => list with { Items = [.. list.Items.Select(item => Exchanged(item, old, changed))] },
        YamlMapping mapping => mapping with { Entries = [.. mapping.Entries.Select(entry => entry with { Value = Exchanged(entry.Value, old, changed) })] },
        _ => within,
    };
}
