namespace Lastoff.Core.Maps;

/// <summary>Everything has an identifier of its own, written the way identifiers are, and a name to show.</summary>
internal static class IdentifierCheck
{
    public static void Check(Map map, MapNames names, FaultList faults)
    {
        RequireIdentifier(map.Name, "name", "The map", "name", faults);
        if (map.Name.Length > Map.LongestName)
        {
            faults.Add("name", $"The map's name has {map.Name.Length} letters; shorten it to {Map.LongestName} at most.");
        }

        Require(map.Title, "title", "The map has no title; give it one that says which machine it describes.", faults);
        if (map.Parts.Count == 0)
        {
            faults.Add("parts", "The map has no parts; list at least one under 'parts:'.");
        }

        foreach (var (sort, path, id) in MapNames.Items(map))
        {
            RequireIdentifier(id, $"{path}.id", $"A {sort}", "id", faults);
            if (id.Length > 0 && names.PathOf(id) is var first && first != path)
            {
                faults.Add($"{path}.id", $"The id '{id}' is used twice, first for the {names.SortOf(id)} on line {faults.LineOf(first)}; give this {sort} another.");
            }
        }

        RequireNames("supplies", "Supply", map.Supplies.Select(s => (s.Id, s.Name)), faults);
        RequireNames("parts", "Part", map.Parts.Select(p => (p.Id, p.Name)), faults);
        RequireNames("joints", "Joint", map.Joints.Select(j => (j.Id, j.Name)), faults);
        RequireNames("openings", "Opening", map.Openings.Select(o => (o.Id, o.Name)), faults);
        RequireNames("renewals", "Renewal", map.Renewals.Select(r => (r.Id, r.Name)), faults);
        RequireNames("proofs", "Proof", map.Proofs.Select(p => (p.Id, p.Name)), faults);

        foreach (var (i, opening) in map.Openings.Index())
        {
            Require(opening.Cover, $"openings[{i}].cover", $"Opening '{opening.Id}' says nothing to cover it with; name a cap, plug or rag under 'cover'.", faults);
        }
    }

    private static void RequireNames(string section, string sort, IEnumerable<(string Id, string Name)> items, FaultList faults)
    {
        foreach (var (i, item) in items.Index())
        {
            Require(item.Name, $"{section}[{i}].name", $"{sort} '{item.Id}' has no name; give it the one a mechanic would use.", faults);
        }
    }

    private static void RequireIdentifier(string id, string path, string what, string field, FaultList faults)
    {
        Require(id, path, $"{what} has no {field}; give it one of lower-case letters, digits and hyphens.", faults);
        if (!id.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-'))
        {
            faults.Add(path, $"'{id}' is not usable as {field}; write it with lower-case letters, digits and hyphens only.");
        }
    }

    private static void Require(string text, string path, string otherwise, FaultList faults)
    {
        if (text.Length == 0)
        {
            faults.Add(path, otherwise);
        }
    }
}
