using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace Lastoff.Core.Maps;

/// <summary>Reads the one document of a map file, from the parser's events: no types are looked up by name, nothing is expanded.</summary>
internal sealed class YamlTree
{
    // The deepest field of a map stands eight levels down.
    private const int MostLevels = 16;

    private readonly Parser _parser;
    private readonly FaultList _faults;
    private readonly string _text;
    private readonly int _lines;

    private YamlTree(string text, FaultList faults)
    {
        _text = text;
        _parser = new Parser(new StringReader(text));
        _faults = faults;
        _lines = text.ReplaceLineEndings("\n").TrimEnd('\n').Count(c => c == '\n') + 1;
    }

    /// <summary>The root mapping, or null after adding what is wrong.</summary>
    public static YamlMapping? Parse(string text, FaultList faults)
    {
        var tree = new YamlTree(text, faults);
        try
        {
            var root = tree.Document();
            return faults.Count == 0 ? root : null;
        }
        catch (Refused)
        {
            return null;
        }
        catch (YamlException broken)
        {
            tree.AddBroken(text, broken);
            return null;
        }
        catch (Exception)
        {
            // Some broken texts, a bracket that is never closed among them, throw exceptions inside the parser that are not its own.
            tree.Add(tree._parser.Current?.End ?? Mark.Empty, "The text cannot be read as YAML from about this line on; look for a bracket or quote that is never closed, or a stray backslash.");
            return null;
        }
    }

    private YamlMapping? Document()
    {
        _parser.Consume<StreamStart>();
        if (_parser.Accept<StreamEnd>(out _))
        {
            _faults.AddToFile(1, "The file is empty; a map starts with 'format: 1', a name and a title.");
            return null;
        }

        _parser.Consume<DocumentStart>();
        var root = Node(1);
        _parser.Consume<DocumentEnd>();
        if (_parser.Accept<DocumentStart>(out var second))
        {
            throw Refuse(second.Start, "A second document starts here; a file holds one map, so put this one into a file of its own.");
        }

        switch (root)
        {
            case YamlMapping mapping:
                return mapping;
            case YamlScalar { IsEmpty: true }:
                _faults.AddToFile(root.Line, "The file is empty; a map starts with 'format: 1', a name and a title.");
                return null;
            default:
                _faults.AddToFile(root.Line, $"The file holds {(root is YamlList ? "a list" : "plain text")} where a map has fields; it starts with 'format: 1', a name and a title.");
                return null;
        }
    }

    private YamlNode Node(int level)
    {
        var next = _parser.Consume<ParsingEvent>();
        if (level > MostLevels)
        {
            throw Refuse(next.Start, $"This is nested more than {MostLevels} levels deep, and nothing in a map is; look for a bracket that is never closed.");
        }

        if (next is AnchorAlias alias)
        {
            Add(next.Start, $"'*{alias.Value}' refers to an anchor; a map has no anchors and aliases, so write the value out.");
            return new YamlScalar(Line(next.Start), "", true);
        }

        if (next is NodeEvent { Anchor.IsEmpty: false } anchored)
        {
            Add(next.Start, $"'&{anchored.Anchor.Value}' is an anchor; a map has no anchors and aliases, so take it away and write the value where it is used.");
        }

        if (next is NodeEvent { Tag.IsEmpty: false, Tag.IsNonSpecific: false } tagged)
        {
            Add(next.Start, $"'{tagged.Tag.Value}' is a tag; a map has none, so take it away.");
        }

        return next switch
        {
            Scalar scalar => new YamlScalar(Line(next.Start), scalar.Value, scalar.Style == ScalarStyle.Plain) { At = new Extent((int)next.Start.Index, EndOf(scalar)) },
            SequenceStart list => Items(list, level),
            MappingStart mapping => Entries(mapping, level),
            _ => throw Refuse(next.Start, "The text cannot be read as YAML here; look at the indentation, colons and quotes of this line and the one above."),
        };
    }

    private YamlList Items(SequenceStart list, int level)
    {
        var items = new List<YamlNode>();
        SequenceEnd end;
        while (!_parser.TryConsume(out end!))
        {
            items.Add(Node(level + 1));
        }

        var isFlow = list.Style == SequenceStyle.Flow;
        return new YamlList(Line(list.Start), items) { IsFlow = isFlow, At = Around(list, end, isFlow || items.Count == 0 ? null : items[^1].At) };
    }

    private YamlMapping Entries(MappingStart mapping, int level)
    {
        var entries = new Dictionary<string, YamlEntry>();
        MappingEnd end;
        while (!_parser.TryConsume(out end!))
        {
            var start = _parser.Accept<ParsingEvent>(out var next) ? next.Start : Mark.Empty;
            if (Node(level + 1) is not YamlScalar key)
            {
                throw Refuse(start, "A list or a set of fields stands here where the name of a field should; look at the brackets and colons of this line.");
            }

            if (string.IsNullOrWhiteSpace(key.Text))
            {
                Add(start, "A value stands here without the name of its field; write the name before the colon.");
            }

            var entry = new YamlEntry(key.Text, key.Line, Node(level + 1)) { KeyAt = key.At };
            if (!entries.TryAdd(key.Text, entry))
            {
                Add(start, $"The field '{key.Text}' is given twice, first on line {entries[key.Text].Line}; keep one.");
            }
        }

        List<YamlEntry> all = [.. entries.Values];
        var isFlow = mapping.Style == MappingStyle.Flow;
        return new YamlMapping(Line(mapping.Start), all) { IsFlow = isFlow, At = Around(mapping, end, isFlow || all.Count == 0 ? null : all[^1].At) };
    }

    /// <summary>The parser ends a block where the next thing starts, past blank lines and comments; it ends with the <paramref name="last"/> thing in it.</summary>
    private static Extent Around(ParsingEvent start, ParsingEvent end, Extent? last) =>
        new((int)start.Start.Index, last?.End ?? (int)end.Start.Index + 1);

    /// <summary>The line breaks after a block scalar are not counted in.</summary>
    private int EndOf(Scalar scalar)
    {
        var (start, end) = ((int)scalar.Start.Index, Math.Min((int)scalar.End.Index, _text.Length));
        return scalar.Style is ScalarStyle.Literal or ScalarStyle.Folded ? start + _text[start..end].TrimEnd().Length : end;
    }

    private void Add(Mark mark, string sentence) => _faults.AddToFile(Line(mark), sentence);

    private Refused Refuse(Mark mark, string sentence)
    {
        Add(mark, sentence);
        return new Refused();
    }

    /// <summary>The parser's line, kept within the file: it may stand one past the end.</summary>
    private int Line(Mark mark) => (int)Math.Clamp(mark.Line, 1, _lines);

    private void AddBroken(string text, YamlException broken)
    {
        var lines = text.ReplaceLineEndings("\n").Split('\n');
        var from = Line(broken.Start);
        var tab = Enumerable.Range(from, 2).FirstOrDefault(n => n <= lines.Length && lines[n - 1] is var line && line[..^line.TrimStart().Length].Contains('\t'));
        if (tab > 0)
        {
            _faults.AddToFile(tab, "This line is indented with a tab; YAML wants spaces.");
        }
        else
        {
            var cause = broken.Message.TrimEnd('.');
            _faults.AddToFile(from, $"The text cannot be read as YAML here ({cause}); look at the indentation, colons, brackets and quotes of this line and the one above.");
        }
    }

    /// <summary>Ends the reading after a fault that leaves nothing sensible to go on with.</summary>
    private sealed class Refused : Exception;
}
