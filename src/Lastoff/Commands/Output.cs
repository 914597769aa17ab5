using System.CommandLine;
using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Lastoff.Commands;

/// <summary>What every command prints alike: JSON when asked for, minutes and positions in words.</summary>
internal static class Output
{
    private static readonly JsonSerializerOptions Readable = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static Option<bool> Json { get; } = new("--json") { Description = "Print JSON, with SI units named in the keys." };

    public static void Write(JsonObject value) => Console.WriteLine(value.ToJsonString(Readable));

    public static JsonArray List<T>(IEnumerable<T> items, Func<T, JsonNode?> each) => [.. items.Select(each)];

    public static string Minutes(double minutes)
    {
        // Rounded first, so that 3 h 59.7 min is 4 h 00 min and not 3 h 60 min.
        var whole = (int)Math.Round(minutes);
        return minutes < 59.95
            ? string.Create(CultureInfo.InvariantCulture, $"{minutes:0.#} min")
            : string.Create(CultureInfo.InvariantCulture, $"{whole / 60} h {whole % 60:00} min");
    }
}
