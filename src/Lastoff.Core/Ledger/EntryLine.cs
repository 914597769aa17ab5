using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Lastoff.Core.Ledger;

/// <summary>Reads and writes an entry as a line of JSON.</summary>
public static class EntryLine
{
    /// <summary>How long one line may be, so that a broken file cannot fill the memory.</summary>
    public const int LongestLine = 256 * 1024;

    private const int LongestDevice = 100;

    private static readonly JsonDocumentOptions Strict = new() { MaxDepth = 16 };

    /// <summary>Writes down an act as the device's next entry.</summary>
    /// <param name="previous">The device's last entry in this job, or null.</param>
    /// <param name="seen">The last counts of other devices' entries that came in since then; null when none did.</param>
    public static Entry Write(Act act, Guid id, string device, DateTimeOffset at, string by, Entry? previous, IReadOnlyDictionary<string, long>? seen = null)
    {
        var line = new JsonObject
        {
            ["id"] = id.ToString(),
            ["device"] = device,
            ["seq"] = (previous?.Seq ?? 0) + 1,
            ["at"] = at.ToString("yyyy-MM-dd'T'HH:mm:ss.fffzzz", CultureInfo.InvariantCulture),
            ["by"] = by,
            ["kind"] = act.Kind,
            ["data"] = act.ToData(),
            ["prev"] = previous?.Hash,
        };
        if (seen is not null)
        {
            line["seen"] = new JsonObject(seen.Select(count => KeyValuePair.Create(count.Key, (JsonNode?)count.Value)));
        }

        line["seal"] = Entry.Sha256(Canonical(line));
        return TryRead(Canonical(line), out var entry, out var fault)
            ? entry!
            : throw new InvalidOperationException($"An entry just written does not read back: {fault}.");
    }

    /// <summary>Reads a line; false with the fault, as the end of a sentence, when it is not an entry or its seal is broken.</summary>
    public static bool TryRead(string line, out Entry? entry, out string? fault)
    {
        entry = null;
        if (line.Length > LongestLine)
        {
            fault = $"it is longer than {LongestLine / 1024} KiB";
            return false;
        }

        try
        {
            using var document = JsonDocument.Parse(line, Strict);
            fault = Read(document.RootElement.Clone(), line, out entry);
        }
        catch (JsonException)
        {
            fault = "it is not whole JSON: it was cut or damaged";
        }
        catch (Exception e) when (e is FormatException or InvalidOperationException or ArgumentException)
        {
            fault = e is FormatException ? e.Message : "its text is not valid Unicode";
        }

        return fault is null;
    }

    /// <summary>The entries among lines that were looked at when they were taken in; one that is none all the same is left out.</summary>
    public static IEnumerable<Entry> ReadAll(IEnumerable<string> lines) => lines.Select(line => TryRead(line, out var entry, out _) ? entry : null).OfType<Entry>();

    private static string? Read(JsonElement root, string line, out Entry? entry)
    {
        entry = null;
        if (root.ValueKind != JsonValueKind.Object)
        {
            return "it is not a JSON object";
        }

        var canonical = CanonicalJson.Write(root);
        if (!TryText(root, "id", out var idText) || !Guid.TryParseExact(idText, "D", out var id) || !EntryId.IsVersion7(id))
        {
            return "its id is not a version 7 UUID";
        }

        if (!TryText(root, "device", out var device) || device.Length is 0 or > LongestDevice)
        {
            return "its device is missing";
        }

        if (!root.TryGetProperty("seq", out var seqElement) || seqElement.ValueKind != JsonValueKind.Number || !seqElement.TryGetInt64(out var seq) || seq < 1)
        {
            return "its seq is not a whole number from 1";
        }

        if (!TryText(root, "at", out var atText)
            || !DateTimeOffset.TryParse(atText, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var at))
        {
            return "its at is not an RFC 3339 time";
        }

        if (!TryText(root, "by", out var by) || by.Length > 200)
        {
            return "its by is missing";
        }

        if (!TryText(root, "kind", out var kind) || kind.Length is 0 or > 100)
        {
            return "its kind is missing";
        }

        if (!root.TryGetProperty("data", out var data) || data.ValueKind != JsonValueKind.Object)
        {
            return "its data is not an object";
        }

        if (!TryCounts(root, out var seen))
        {
            return "its seen is not a list of devices with the number of the last entry seen of each";
        }

        if (!TryHash(root, "prev", out var prev))
        {
            return "its prev is not a SHA-256";
        }

        if (!TryHash(root, "seal", out var seal))
        {
            return "its seal is not a SHA-256";
        }

        if (seal is not null && (line != canonical || seal != SealOf(root)))
        {
            return "its seal does not fit what it says: it was changed after it was written";
        }

        entry = new Entry(id, device, seq, at, by, kind, data, seen, prev, seal, canonical);
        return null;
    }

    private static string SealOf(JsonElement root) => Entry.Sha256(CanonicalJson.Write(root, without: "seal"));

    private static string Canonical(JsonObject line)
    {
        using var document = JsonDocument.Parse(line.ToJsonString());
        return CanonicalJson.Write(document.RootElement);
    }

    private static bool TryText(JsonElement root, string name, out string text)
    {
        var found = root.TryGetProperty(name, out var element) && element.ValueKind == JsonValueKind.String;
        text = found ? element.GetString()! : "";
        return found;
    }

    private static bool TryCounts(JsonElement root, out IReadOnlyDictionary<string, long>? seen)
    {
        seen = null;
        if (!root.TryGetProperty("seen", out var element))
        {
            return true;
        }

        if (element.ValueKind != JsonValueKind.Object)
        {
            return false;
        }

        var counts = new Dictionary<string, long>();
        foreach (var device in element.EnumerateObject())
        {
            if (device.Name.Length is 0 or > LongestDevice || device.Value.ValueKind != JsonValueKind.Number || !device.Value.TryGetInt64(out var seq) || seq < 1)
            {
                return false;
            }

            counts[device.Name] = seq;
        }

        seen = counts;
        return true;
    }

    private static bool TryHash(JsonElement root, string name, out string? hash)
    {
        hash = null;
        if (!root.TryGetProperty(name, out var element) || element.ValueKind == JsonValueKind.Null)
        {
            return true;
        }

        hash = element.ValueKind == JsonValueKind.String ? element.GetString() : null;
        return hash is not null && Entry.IsSha256(hash);
    }
}
