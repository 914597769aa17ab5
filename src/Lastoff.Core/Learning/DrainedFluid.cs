namespace Lastoff.Core.Learning;

/// <summary>A fluid that was let out in some recording: fresh goes in, and where it was let out it must not come by itself.</summary>
/// <param name="Litres">What it takes; null when nobody ever said.</param>
internal sealed record DrainedFluid(string Name, double? Litres)
{
    public static IReadOnlyList<DrainedFluid> Of(Sightings seen) =>
    [
        .. from name in seen.Named(Sort.Supply)
           let removals = seen.Of(Sort.Supply, name).Select(s => s.Removal).ToList()
           where removals.Exists(removal => removal.Drained)
           select new DrainedFluid(name, Median.Of(removals.Select(removal => removal.Amount_L))),
    ];
}
