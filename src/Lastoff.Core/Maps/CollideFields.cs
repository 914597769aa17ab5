namespace Lastoff.Core.Maps;

/// <summary>Reads the places that are too near to each other for two people: [[above, front], [above, rear]].</summary>
internal static class CollideFields
{
    private const string Wanted = "a list of pairs of places, [[above, front], [above, rear]]";

    public static IReadOnlyList<PlacePair> Read(YamlFields map, FaultList faults)
    {
        switch (map.Take("collide"))
        {
            case null:
                return [];
            case YamlList list:
                var pairs = new List<PlacePair>();
                foreach (var (i, item) in list.Items.Index())
                {
                    faults.Place($"collide[{i}]", item.Line);
                    if (Pair(item) is { } pair)
                    {
                        pairs.Add(pair);
                    }
                    else
                    {
                        faults.Add($"collide[{i}]", $"The map: an entry of 'collide' is not two different places; write {Wanted}, with {string.Join(", ", Words<Position>.All)}.");
                    }
                }

                return pairs;
            case var other:
                map.Wrong("collide", other, Wanted);
                return [];
        }
    }

    private static PlacePair? Pair(YamlNode item) =>
        item is YamlList { Items: [YamlScalar first, YamlScalar second] }
        && Words<Position>.TryRead(first.Text.Trim(), out var a) && Words<Position>.TryRead(second.Text.Trim(), out var b) && a != b
            ? new PlacePair(a, b)
            : null;
}
