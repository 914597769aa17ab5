using System.Text.Json;
using System.Text.Json.Nodes;

namespace Lastoff.Core.Ledger;

/// <summary>What a proof was judged from, so that the record stands alone and the sum can be done again.</summary>
/// <param name="Method">How: "vacuum hold", "warm-up", "mix by refractometer".</param>
/// <param name="Says">What the readings say by that method. A person may say otherwise, with a reason.</param>
/// <param name="Unit">Of the figure and its interval; empty when there is none.</param>
/// <param name="Given">What went into the sum beside the readings, each with its unit in its name.</param>
/// <param name="Readings">The readings as a table, as they were typed, pasted or read from a file; null when there are none.</param>
public sealed record Evidence(
    string Method,
    Verdict Says,
    double? Figure,
    double? Low,
    double? High,
    string Unit,
    IReadOnlyDictionary<string, double> Given,
    string? Readings)
{
    // A line of the ledger has its limit; a longer log is told by its fingerprint, by which the file is known again.
    private const int MostReadings = 48 * 1024;

    /// <summary>The longer the log, the less of it: all of it, or how it is known again.</summary>
    public static string? Kept(string? readings) => readings is null || readings.Length <= MostReadings
        ? readings
        : $"# {readings.Length} characters, SHA-256 {Entry.Sha256(readings)}";

    internal JsonObject ToData()
    {
        var data = new JsonObject { ["method"] = Method, ["says"] = ActKinds.Word(Says), ["unit"] = Unit };
        foreach (var (name, value) in new[] { ("figure", Figure), ("low", Low), ("high", High) })
        {
            if (value is not null)
            {
                data[name] = value;
            }
        }

        data["given"] = new JsonObject(Given.OrderBy(pair => pair.Key, StringComparer.Ordinal).Select(pair => KeyValuePair.Create(pair.Key, (JsonNode?)pair.Value)));
        if (Readings is not null)
        {
            data["readings"] = Readings;
        }

        return data;
    }

    /// <exception cref="FormatException">It is there, and is no evidence.</exception>
    internal static Evidence? Read(JsonElement data)
    {
        if (!data.TryGetProperty("evidence", out var evidence))
        {
            return null;
        }

        if (evidence.ValueKind != JsonValueKind.Object || Text(evidence, "method") is not { } method || Text(evidence, "says") is not { } says)
        {
            throw new FormatException("its evidence names no method or does not say what the readings say");
        }

        var given = evidence.TryGetProperty("given", out var sums) && sums.ValueKind == JsonValueKind.Object
            ? sums.EnumerateObject().Where(member => member.Value.ValueKind == JsonValueKind.Number).ToDictionary(member => member.Name, member => member.Value.GetDouble())
            : [];
        return new Evidence(
            method, ActKinds.VerdictOf(says), Number(evidence, "figure"), Number(evidence, "low"), Number(evidence, "high"),
            Text(evidence, "unit") ?? "", given, Text(evidence, "readings"));
    }

    private static string? Text(JsonElement data, string name) =>
        data.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static double? Number(JsonElement data, string name) =>
        data.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;
}
