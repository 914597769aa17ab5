using System.Globalization;
using System.Text;
using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Writes readings in one line and reads them again: "undone; bolt; x3; 12mm; part generator bracket; tray 2". Several stand with " + " between.</summary>
public static class ReadingText
{
    private const string Between = " + ";

    public static string Write(IEnumerable<Reading> readings) => string.Join(Between, readings.Select(Write));

    public static string Write(Reading reading)
    {
        var fields = new List<string> { Words<Deed>.Of(reading.Deed) };
        Add(reading.Kind is { } kind ? Words<JointKind>.Of(kind) : null);
        Add(reading.Count is { } count ? $"x{count}" : null);
        Add(reading.Across?.ToString());
        Add(reading.Thread?.ToString());
        Add(reading.Drive?.ToString());
        Say("length", reading.Length?.ToString());
        Say("name", reading.Name);
        Say("part", reading.Part);
        Say("of", reading.Of);
        Say("cover", reading.Cover);
        Say("at", reading.At is { } at ? Words<Position>.Of(at) : null);
        Say("tray", reading.Tray);
        foreach (var (word, get, _) in Flags)
        {
            Add(get(reading) ? word : null);
        }

        Say("torque", reading.Torque is { } torque ? string.Create(CultureInfo.InvariantCulture, $"{torque.NewtonMetres:R}N·m") : null);
        Say("tool", reading.Tool);
        Say("supply", reading.Supply is { } supply ? Words<SupplyKind>.Of(supply) : null);
        Say("fluid", reading.Fluid);
        Say("volume", reading.Volume_L is { } litres ? string.Create(CultureInfo.InvariantCulture, $"{litres:R}L") : null);
        Say("note", reading.Note);
        Say("ask", reading.Question is { } question ? Write(question) : null);
        return string.Join("; ", fields);

        void Add(string? field)
        {
            if (field is not null)
            {
                fields.Add(field);
            }
        }

        void Say(string word, string? value) => Add(value is null ? null : $"{word} {Escape(value)}");
    }

    /// <summary>The readings a text stands for, or the sentence that says which field cannot be read.</summary>
    public static Answer<IReadOnlyList<Reading>> Read(string text)
    {
        var readings = new List<Reading>();
        foreach (var part in Split(text, " + "))
        {
            if (!ReadOne(part).TryGet(out var reading, out var sentence))
            {
                return Answer.None<IReadOnlyList<Reading>>(sentence);
            }

            readings.Add(reading);
        }

        return Answer.Of<IReadOnlyList<Reading>>(readings);
    }

    private static readonly (string Word, Func<Reading, bool> Get, Func<Reading, Reading> Set)[] Flags =
    [
        ("captive", r => r.Captive, r => r with { Captive = true }),
        ("left-hand", r => r.LeftHand, r => r with { LeftHand = true }),
        ("one-time", r => r.OneTime, r => r with { OneTime = true }),
        ("broken", r => r.Broken, r => r with { Broken = true }),
        ("seized", r => r.Seized, r => r with { Seized = true }),
        ("sealed", r => r.Sealed, r => r with { Sealed = true }),
    ];

    private static Answer<Reading> ReadOne(string text)
    {
        var fields = Split(text.Trim(), ";");
        if (!Words<Deed>.TryRead(fields[0].Trim(), out var deed))
        {
            return Answer.None<Reading>($"“{text}” begins with none of {string.Join(", ", Words<Deed>.All)}.");
        }

        var reading = new Reading { Deed = deed };
        foreach (var field in fields.Skip(1).Select(f => f.Trim()))
        {
            if (ReadField(reading, field) is not { } more)
            {
                return Answer.None<Reading>($"“{field}” is no field of a reading.");
            }

            reading = more;
        }

        return reading;
    }

    private static Reading? ReadField(Reading reading, string field)
    {
        if (Words<JointKind>.TryRead(field, out var kind))
        {
            return reading with { Kind = kind };
        }

        if (Flags.FirstOrDefault(flag => flag.Word == field) is { Set: { } set })
        {
            return set(reading);
        }

        if (field.StartsWith('x') && int.TryParse(field[1..], NumberStyles.None, CultureInfo.InvariantCulture, out var count))
        {
            return reading with { Count = count };
        }

        if (Size.TryParse(field, out var across))
        {
            return reading with { Across = across };
        }

        if (ThreadSize.TryParse(field, out var thread))
        {
            return reading with { Thread = thread };
        }

        if (Drive.TryParse(field, out var drive))
        {
            return reading with { Drive = drive };
        }

        return field.Split(' ', 2) is [var word, var rest] ? ReadSaid(reading, word, Unescape(rest)) : null;
    }

    private static Reading? ReadSaid(Reading reading, string word, string value) => word switch
    {
        "length" => Size.TryParse(value, out var length) ? reading with { Length = length } : null,
        "name" => reading with { Name = value },
        "part" => reading with { Part = value },
        "of" => reading with { Of = value },
        "cover" => reading with { Cover = value },
        "at" => Words<Position>.TryRead(value, out var at) ? reading with { At = at } : null,
        "tray" => reading with { Tray = value },
        "torque" => Torque.TryParse(value, out var torque) ? reading with { Torque = torque } : null,
        "tool" => reading with { Tool = value },
        "supply" => Words<SupplyKind>.TryRead(value, out var supply) ? reading with { Supply = supply } : null,
        "fluid" => reading with { Fluid = value },
        "volume" => Volume.TryParseLitres(value, out var litres) ? reading with { Volume_L = litres } : null,
        "note" => reading with { Note = value },
        "ask" => ReadQuestion(value) is { } question ? reading with { Question = question } : null,
        _ => null,
    };

    private static string Write(Question question) => string.Join(' ', new[]
    {
        Words<Doubt>.Of(question.Doubt),
        question.Number?.ToString("R", CultureInfo.InvariantCulture),
        question.Unit,
    }.OfType<string>());

    private static Question? ReadQuestion(string text)
    {
        var words = text.Split(' ');
        if (!Words<Doubt>.TryRead(words[0], out var doubt))
        {
            return null;
        }

        var number = words.Length > 1 && double.TryParse(words[1], NumberStyles.Float, CultureInfo.InvariantCulture, out var read) ? read : (double?)null;
        return new Question(doubt, number) { Unit = words.Length > 2 ? words[2] : null };
    }

    // A backslash keeps the signs that stand between fields and readings.
    private static string Escape(string value)
    {
        var text = new StringBuilder();
        foreach (var letter in value)
        {
            text.Append(letter is '\\' or ';' or '+' ? "\\" : "").Append(letter);
        }

        return text.ToString();
    }

    private static string Unescape(string value)
    {
        var text = new StringBuilder();
        for (var i = 0; i < value.Length; i++)
        {
            text.Append(value[i] == '\\' && i + 1 < value.Length ? value[++i] : value[i]);
        }

        return text.ToString();
    }

    private static List<string> Split(string text, string sign)
    {
        var parts = new List<string>();
        var start = 0;
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\\')
            {
                i++;
            }
            else if (text.AsSpan(i).StartsWith(sign))
            {
                parts.Add(text[start..i]);
                start = i + sign.Length;
                i = start - 1;
            }
        }

        parts.Add(text[start..]);
        return parts;
    }
}
