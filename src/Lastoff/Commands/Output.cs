using System.CommandLine;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Lastoff.Commands;

/// <summary>What every command prints alike: JSON when asked for.</summary>
internal static class Output
{
    private static readonly JsonSerializerOptions Readable = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static Option<bool> Json { get; } = new("--json") { Description = "Print JSON, with SI units named in the keys." };

    public static void Write(JsonObject value) => Console.WriteLine(value.ToJsonString(Readable));

    public static JsonArray List<T>(IEnumerable<T> items, Func<T, JsonNode?> each) => [.. items.Select(each)];
}
