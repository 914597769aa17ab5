namespace Lastoff.Core.Maps.Editing;

/// <summary>One place of a map that names an item.</summary>
/// <param name="Field">Where in <paramref name="By"/>: "holds", "reach.off", "reach.either".</param>
public sealed record NameUse(EditedItem By, string Field)
{
    internal static IEnumerable<NameUse> Of(string id, IEnumerable<EditedItem> items) =>
        from item in items
        from field in FieldsNaming(id, item)
        select new NameUse(item, field);

    private static IEnumerable<string> FieldsNaming(string id, EditedItem item)
    {
        foreach (var field in new[] { "holds", "needs", "reach.clear", "reach.off", "aside.leaves" })
        {
            if (item.Names(field).Contains(id))
            {
                yield return field;
            }
        }

        foreach (var field in new[] { "rides_on", "on", "for" })
        {
            if (item.Text(field) == id)
            {
                yield return field;
            }
        }

        if (item.Ways.Any(way => way.Clear.Contains(id) || way.Off.Contains(id)))
        {
            yield return "reach.either";
        }
    }
}
