using System.Globalization;

namespace Lastoff.Core.Maps;

/// <summary>The fields of one mapping, taken out one by one with their type; what nobody asked for is unknown.</summary>
internal sealed class YamlFields
{
    private readonly Dictionary<string, YamlEntry> _left;
    private readonly List<string> _known = [];
    private readonly FaultList _faults;

    /// <param name="path">Where the mapping stands, empty for the file's own fields.</param>
    /// <param name="what">How a sentence calls it: "Joint 'pump-bolts'".</param>
    public YamlFields(YamlMapping mapping, string path, string what, FaultList faults)
    {
        (Path, What, _faults) = (path, what, faults);
        _left = mapping.Entries.ToDictionary(e => e.Key);
        foreach (var entry in mapping.Entries)
        {
            faults.Place(At(entry.Key), entry.Line);
        }
    }

    public string Path { get; }

    /// <summary>How a sentence starts that is about it: "Joint 'pump-bolts'".</summary>
    public string What { get; }

    /// <summary>How a sentence calls it further in: "joint 'pump-bolts'".</summary>
    public string WhatInside => char.ToLowerInvariant(What[0]) + What[1..];

    public bool Has(string field) => _left.ContainsKey(field);

    public YamlFields Within(YamlMapping mapping, string field, string what) => At(mapping, At(field), what);

    public YamlFields At(YamlMapping mapping, string path, string what) => new(mapping, path, what, _faults);

    public string At(string field) => Path.Length == 0 ? field : $"{Path}.{field}";

    /// <summary>The field's value, or null when it is left out or, after a fault, empty.</summary>
    public YamlNode? Take(string field)
    {
        _known.Add(field);
        if (!_left.Remove(field, out var entry))
        {
            return null;
        }

        if (entry.Value is YamlScalar { IsEmpty: true })
        {
            _faults.Add(At(field), $"{What}: the field '{field}' is empty; give it a value or take the line out.");
            return null;
        }

        return entry.Value;
    }

    public string? Text(string field)
    {
        switch (Take(field))
        {
            case null:
                return null;
            case YamlScalar scalar:
                return scalar.Text.Trim();
            case var other:
                Wrong(field, other, "a text");
                return null;
        }
    }

    public double Number(string field, double leftOut)
    {
        switch (Take(field))
        {
            case null:
                return leftOut;
            case YamlScalar { IsPlain: true } scalar when TryReadNumber(scalar.Text, out var number):
                return number;
            case var other:
                Wrong(field, other, "a number");
                return leftOut;
        }
    }

    public int Whole(string field, int leftOut)
    {
        var number = Number(field, leftOut);
        if (number == Math.Truncate(number) && Math.Abs(number) <= int.MaxValue)
        {
            return (int)number;
        }

        _faults.Add(At(field), string.Create(CultureInfo.InvariantCulture, $"{What}: '{field}' is {number}; it must be a whole number."));
        return leftOut;
    }

    public bool Flag(string field)
    {
        switch (Take(field))
        {
            case null:
                return false;
            case YamlScalar { IsPlain: true, Text: "true" or "True" or "TRUE" }:
                return true;
            case YamlScalar { IsPlain: true, Text: "false" or "False" or "FALSE" }:
                return false;
            case var other:
                Wrong(field, other, "true or false");
                return false;
        }
    }

    public T? Choice<T>(string field) where T : struct, Enum
    {
        var word = Text(field);
        if (word is null)
        {
            return null;
        }

        if (Words<T>.TryRead(word, out var value))
        {
            return value;
        }

        _faults.Add(At(field), $"{What}: '{word}' is not a known value of '{field}'{_faults.DidYouMean(word, Words<T>.All, $"; use one of {string.Join(", ", Words<T>.All)}.")}");
        return null;
    }

    /// <summary>A list of texts.</summary>
    public IReadOnlyList<string> Texts(string field)
    {
        switch (Take(field))
        {
            case null:
                return [];
            case YamlList list when list.Items.All(item => item is YamlScalar { IsEmpty: false }):
                return [.. list.Items.OfType<YamlScalar>().Select(item => item.Text.Trim())];
            case var other:
                Wrong(field, other, "a list of texts, each starting with a dash");
                return [];
        }
    }

    /// <summary>A list of names. A value that is no name stays in it, empty, so that the places of the others are kept.</summary>
    public IReadOnlyList<string> Names(string field)
    {
        switch (Take(field))
        {
            case null:
                return [];
            case YamlList list:
                return Names(list, At(field));
            case var other:
                Wrong(field, other, "a list of names, [like-this, and-this]");
                return [];
        }
    }

    public IReadOnlyList<string> Names(YamlList list, string path)
    {
        var names = new List<string>();
        foreach (var item in list.Items)
        {
            var at = $"{path}[{names.Count}]";
            _faults.Place(at, item.Line);
            if (item is not YamlScalar { IsEmpty: false })
            {
                _faults.Add(at, $"{What}: {Seen(item)} stands where the name of something in the map should.");
            }

            names.Add((item as YamlScalar)?.Text.Trim() ?? "");
        }

        return names;
    }

    public YamlFields? Fields(string field, string what)
    {
        switch (Take(field))
        {
            case null:
                return null;
            case YamlMapping mapping:
                return Within(mapping, field, what);
            case var other:
                Wrong(field, other, "a set of fields");
                return null;
        }
    }

    /// <summary>A list of mappings, each read by <paramref name="read"/>.</summary>
    public IReadOnlyList<T> Each<T>(string field, Func<YamlMapping, string, T> read)
    {
        switch (Take(field))
        {
            case null:
                return [];
            case YamlList list:
                return Each(list, At(field), read);
            case var other:
                Wrong(field, other, "a list, each entry starting with a dash");
                return [];
        }
    }

    public void Wrong(string field, YamlNode seen, string wanted)
    {
        var hint = seen switch
        {
            YamlScalar { IsPlain: false } quoted when TryReadNumber(quoted.Text, out _) => " Take the quotes away.",
            YamlScalar scalar when scalar.Text.Contains(',') && TryReadNumber(scalar.Text.Replace(',', '.'), out _) => $" Write it with a decimal point: {scalar.Text.Replace(',', '.')}.",
            _ => "",
        };
        _faults.Add(At(field), $"{What}: '{field}' is {Seen(seen)}; it must be {wanted}.{hint}");
    }

    /// <summary>Reports every field that was not taken.</summary>
    public void Finish()
    {
        foreach (var entry in _left.Values)
        {
            var comma = entry.Value is YamlScalar { IsEmpty: true } ? " (a text with a comma or colon in it needs quotes)" : "";
            var end = _faults.DidYouMean(entry.Key, _known, $"{comma}; its fields are {string.Join(", ", _known)}.");
            _faults.Add(At(entry.Key), $"{What} has no field '{entry.Key}'{end}");
        }
    }

    private List<T> Each<T>(YamlList list, string path, Func<YamlMapping, string, T> read)
    {
        var values = new List<T>();
        foreach (var (i, item) in list.Items.Index())
        {
            var at = $"{path}[{i}]";
            _faults.Place(at, item.Line);
            if (item is not YamlMapping)
            {
                _faults.Add(at, $"{What}: {Seen(item)} stands in the list of {path[(path.LastIndexOf('.') + 1)..]}, where each entry must be a set of fields.");
            }

            // Read all the same, as an entry without fields, so that the places of the others are kept.
            values.Add(read(item as YamlMapping ?? new YamlMapping(item.Line, []), at));
        }

        return values;
    }

    private static string Seen(YamlNode node) => node switch
    {
        YamlScalar { IsEmpty: true } => "nothing",
        YamlScalar { Text: var text } => $"'{(text.Length > 40 ? text[..40] + "…" : text)}'",
        YamlList => "a list",
        _ => "a set of fields",
    };

    private static bool TryReadNumber(string text, out double number)
    {
        (var known, number) = text.ToLowerInvariant() switch
        {
            ".nan" => (true, double.NaN),
            ".inf" or "+.inf" => (true, double.PositiveInfinity),
            "-.inf" => (true, double.NegativeInfinity),
            _ => (false, 0),
        };
        return known || double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out number);
    }
}
