using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using YamlDotNet.Core;
using YamlDotNet.RepresentationModel;

namespace Lastoff.Tests.Maps;

/// <summary>A YAML document as JSON, plain scalars resolved by the core schema of YAML 1.2.2 (section 10.3.2). Written apart from the map reader.</summary>
internal static partial class YamlAsJson
{
    public static JsonNode? Read(string yaml)
    {
        var stream = new YamlStream();
        stream.Load(new StringReader(yaml));
        return stream.Documents.Count == 0 ? null : Convert(stream.Documents[0].RootNode);
    }

    private static JsonNode? Convert(YamlNode node) => node switch
    {
        YamlMappingNode mapping => new JsonObject(mapping.Children.Select(child => KeyValuePair.Create(((YamlScalarNode)child.Key).Value!, Convert(child.Value)))),
        YamlSequenceNode sequence => new JsonArray([.. sequence.Children.Select(Convert)]),
        YamlScalarNode { Style: ScalarStyle.Plain, Value: var text } => Resolve(text ?? ""),
        YamlScalarNode { Value: var text } => JsonValue.Create(text),
        _ => throw new NotSupportedException(),
    };

    private static JsonNode? Resolve(string text) => text switch
    {
        "" or "~" or "null" or "Null" or "NULL" => null,
        "true" or "True" or "TRUE" => JsonValue.Create(true),
        "false" or "False" or "FALSE" => JsonValue.Create(false),
        _ when Number().IsMatch(text) => JsonNode.Parse(double.Parse(text, CultureInfo.InvariantCulture).ToString("R", CultureInfo.InvariantCulture)),
        _ => JsonValue.Create(text),
    };

    [GeneratedRegex(@"^[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?$")]
    private static partial Regex Number();
}
