using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Papers;

/// <summary>A paper as JSON: every text as it was written, and beside it the data it says, numbers in the unit their key names.</summary>
public static class PaperJson
{
    private static readonly JsonWriterOptions Readable = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Write(Paper paper)
    {
        var bytes = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(bytes, Readable))
        {
            json.WriteStartObject();
            json.WriteString("paper", paper.Kind.Word());
            json.WriteString("title", paper.Title);
            json.WriteString("for", paper.For);
            json.WriteString("machine", paper.Machine);
            json.WriteString("basis", paper.Basis);
            json.WriteBoolean("invented", paper.IsInvented);
            List(json, "sections", paper.Sections, section =>
            {
                json.WriteStartObject();
                json.WriteString("heading", section.Heading);
                List(json, "blocks", section.Blocks, block =>
                {
                    json.WriteStartObject();
                    Write(json, block);
                    json.WriteEndObject();
                });
                json.WriteEndObject();
            });
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.WrittenSpan);
    }

    private static void Write(Utf8JsonWriter json, Block block)
    {
        switch (block)
        {
            case Facts facts:
                List(json, "facts", facts.Lines, fact => Write(json, fact.Value, () => json.WriteString("name", fact.Name)));
                break;
            case Table table:
                json.WriteString("caption", table.Caption);
                List(json, "columns", table.Columns, column => json.WriteStringValue(column.Head));
                List(json, "rows", table.Rows, row => Write(json, row));
                break;
            case Paragraph paragraph:
                json.WritePropertyName("paragraph");
                Write(json, paragraph.Text);
                break;
            case Caution caution:
                json.WritePropertyName("caution");
                Write(json, caution.Text);
                break;
            case Bullets bullets:
                List(json, "list", bullets.Items, item => Write(json, item));
                break;
            case Labels labels:
                List(json, "labels", labels.Items, label => Write(json, label));
                break;
            case Pictures pictures:
                List(json, "pictures", pictures.Items, picture => Write(json, picture.Caption, () =>
                {
                    json.WriteString("sha256", picture.Sha256);
                    json.WriteBoolean("is_here", picture.Jpeg is not null);
                }));
                break;
            case Seal seal:
                List(json, "seal", seal.Ends, end =>
                {
                    json.WriteStartObject();
                    json.WriteString("device", end.Device);
                    json.WriteNumber("entries", end.Entries);
                    json.WriteString("last", end.Last.ToString());
                    json.WriteString("sha256", end.Hash);
                    json.WriteEndObject();
                });
                json.WriteString("how_to_check", seal.HowToCheck);
                break;
        }
    }

    private static void Write(Utf8JsonWriter json, Row row)
    {
        json.WriteStartObject();
        List(json, "cells", row.Cells, cell => Write(json, cell));
        if (row.Caution is { } caution)
        {
            json.WriteString("caution", caution);
        }

        json.WriteString("kind", Words<RowKind>.Of(row.Kind));
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Label label)
    {
        json.WriteStartObject();
        json.WriteString("name", label.Name);
        List(json, "lines", label.Lines, line => Write(json, line));
        if (label.Code is { } code)
        {
            json.WriteString("link", code.Link);
            List(json, "modules", [.. Enumerable.Range(0, code.Dark.GetLength(0))], row =>
                json.WriteStringValue(string.Concat(Enumerable.Range(0, code.Dark.GetLength(1)).Select(column => code.Dark[row, column] ? '1' : '0'))));
        }

        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Said said, Action? before = null)
    {
        json.WriteStartObject();
        before?.Invoke();
        json.WriteString("text", said.Text);
        foreach (var datum in said.Data)
        {
            json.WritePropertyName(datum.Key);
            json.WriteRawValue(datum.Json);
        }

        json.WriteEndObject();
    }

    private static void List<T>(Utf8JsonWriter json, string name, IReadOnlyList<T> items, Action<T> each)
    {
        json.WriteStartArray(name);
        foreach (var item in items)
        {
            each(item);
        }

        json.WriteEndArray();
    }
}
