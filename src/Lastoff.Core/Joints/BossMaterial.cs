namespace Lastoff.Core.Joints;

/// <summary>What a bolt is screwed into, with a low tensile strength to reckon with where nobody states its own.</summary>
/// <param name="Tensile_MPa">Null where grades differ too much for any figure to serve.</param>
/// <param name="UsualDiameters">Engaged length in thread diameters by an engine maker's rule of thumb; null where it gives none.</param>
public sealed record BossMaterial(string Name, double? Tensile_MPa, double? UsualDiameters, string Source)
{
    public static IReadOnlyList<BossMaterial> All { get; } =
    [
        new("aluminium", 130, 2, "the low end of sand-cast LM25-M, BS 1490:1988, read in an alloy data sheet; die castings bear more"),
        new("magnesium", 160, null, "the low end of AZ91 as cast, read in a supplier's data sheet; die castings bear more"),
        new("iron", 200, 1.25, "grey iron EN-GJL-200, EN 1561, from memory"),
        new("steel", 360, 1.25, "plain steel S235, EN 10025-2, from memory"),
        new("plastic", null, null, "plastics differ tenfold and creep"),
    ];

    public static Answer<BossMaterial> Named(string name)
    {
        var wanted = name.Trim().ToLowerInvariant() is "aluminum" ? "aluminium" : name.Trim().ToLowerInvariant();
        return All.FirstOrDefault(m => m.Name == wanted) is not { } material
                ? Answer.None<BossMaterial>($"“{name}” is not a material with a strength here; use one of {string.Join(", ", All.Select(m => m.Name))}, or state the strength.")
            : Answer.Of(material);
    }
}
