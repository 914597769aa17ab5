using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Json.Schema;
using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Maps;

/// <summary>The published schema (JSON Schema 2020-12) against maps, evaluated by an independent library.</summary>
public class MapSchemaTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(Read("map.schema.json"));

    public static TheoryData<string> BadFiles => [.. BadMaps.Names];

    [Theory]
    [InlineData("light-van")]
    [InlineData("orchard-sprayer-pump")]
    public void A_demo_map_keeps_to_the_schema(string name) => Assert.Equal("", Complaints(Demo.Text(name)));

    [Fact]
    public void The_example_of_the_documentation_keeps_to_the_schema_and_is_read_without_faults()
    {
        var example = Example();
        Assert.Equal("", Complaints(example));
        var reading = MapReader.Read(example, "map-format.md");
        Assert.Equal([], reading.Faults.Select(reading.Describe));
    }

    /// <summary>A file whose faults a schema cannot see (names, circles) says "#schema: passes"; one that is no JSON-like document says "#schema: not asked".</summary>
    [Theory]
    [MemberData(nameof(BadFiles))]
    public void A_bad_map_fails_where_a_schema_can_tell(string name)
    {
        var text = BadMaps.Text(name);
        switch (BadMaps.Marked(text, "#schema: ").SingleOrDefault())
        {
            case null:
                Assert.NotEqual("", Complaints(text));
                break;
            case "passes":
                Assert.Equal("", Complaints(text));
                break;
            case var other:
                Assert.Equal("not asked", other);
                break;
        }
    }

    [Fact]
    public void Schema_and_reader_know_the_same_words()
    {
        var root = JsonNode.Parse(Read("map.schema.json"))!["$defs"]!;
        Assert.Equal(Words<Position>.All, Enumeration(root["position"]!));
        Assert.Equal(Words<SupplyKind>.All, Enumeration(root["supply"]!["properties"]!["kind"]!));
        Assert.Equal(Words<JointKind>.All, Enumeration(root["joint"]!["properties"]!["kind"]!));
        Assert.Equal(Words<RenewalKind>.All, Enumeration(root["renewal"]!["properties"]!["kind"]!));
        Assert.Equal(Words<ProofKind>.All, Enumeration(root["proof"]!["properties"]!["kind"]!));
        Assert.Equal(Words<ThreadCondition>.All, Enumeration(root["tighten"]!["properties"]!["condition"]!));
        Assert.Equal(Words<FastenerAction>.All, Enumeration(root["tighten"]!["properties"]!["fastener"]!));
        Assert.All(Enumeration(root["tighten"]!["properties"]!["into"]!), name => Assert.True(BossMaterial.Named(name).Found));
        Assert.All(BossMaterial.All, material => Assert.Contains(material.Name, Enumeration(root["tighten"]!["properties"]!["into"]!)));
        foreach (var unit in Enumeration(root["renewal"]!["properties"]!["unit"]!))
        {
            Assert.DoesNotContain(MapReader.Read(Example().Replace("unit: L", $"unit: {unit}"), "x").Faults, f => f.Field == "unit");
        }
    }

    [Theory]
    [InlineData("torque", "22 N·m", true)]
    [InlineData("torque", "22Nm", true)]
    [InlineData("torque", "110 in·lb", true)]
    [InlineData("torque", "35 ft-lb", true)]
    [InlineData("torque", "2.5 kgf·m", true)]
    [InlineData("torque", "22", false)]
    [InlineData("torque", "-22 N·m", false)]
    [InlineData("torque", "22 N/m", false)]
    [InlineData("amount", "2.4 L", true)]
    [InlineData("amount", "600mL", true)]
    [InlineData("amount", "1.5 US gal", true)]
    [InlineData("amount", "1.5 gal", false)]
    [InlineData("amount", "-2 L", false)]
    public void Schema_and_reader_take_the_same_quantities(string field, string quantity, bool isGood)
    {
        var text = Regex.Replace(Example(), $"{field}: [^#\n]*", $"{field}: {quantity} ", RegexOptions.None);
        Assert.Equal(isGood, Complaints(text) == "");
        Assert.Equal(isGood, MapReader.Read(text, "x").Faults.Count == 0);
    }

    private static string Example() => Regex.Match(Read("map-format.md"), "```yaml\n(.*?)```", RegexOptions.Singleline).Groups[1].Value;

    private static string Read(string name) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "docs", name));

    private static IEnumerable<string> Enumeration(JsonNode node) => node["enum"]!.AsArray().Select(word => word!.GetValue<string>());

    private static string Complaints(string yaml)
    {
        var json = JsonSerializer.SerializeToElement(YamlAsJson.Read(yaml));
        var result = Schema.Evaluate(json, new EvaluationOptions { OutputFormat = OutputFormat.List });
        return result.IsValid ? "" : string.Join("\n", (result.Details ?? []).Where(d => d.Errors is not null).Select(d => $"{d.InstanceLocation}: {string.Join(", ", d.Errors!.Values)}"));
    }
}
