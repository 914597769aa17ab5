using Lastoff.Core.Ledger;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>“Hose off, about half a litre ran out”: nobody drains that before, it is caught where it comes.</summary>
/// <param name="Fluid">What it was, by the name it was told by; null when it had none.</param>
/// <param name="Litres">How much; null when nobody said.</param>
public sealed record RanOut(string? Fluid, double? Litres)
{
    /// <summary>What ran out of an open end and was more than this was the draining itself (set down, no source).</summary>
    private const double MostCaught_L = 1;

    /// <summary>Every fluid that ran out by itself, with what it ran out of: what its line told before it, or else what was told last.</summary>
    /// <param name="out">What came off, in order.</param>
    internal static IReadOnlyDictionary<ToldMove, ToldMove> Among(IReadOnlyList<ToldMove> @out)
    {
        var ran = new Dictionary<ToldMove, ToldMove>();
        foreach (var (at, fluid) in @out.Index())
        {
            if (fluid is not { Moved.Move: Move.SupplySafe, Reading: { Deed: Deed.Drained } reading, Line: { } line })
            {
                continue;
            }

            var told = line.Readings.Index().First(one => ReferenceEquals(one.Item, reading)).Index;
            var isAlone = !@out.Any(one => one.Entry.Id == fluid.Entry.Id && one != fluid);
            var of = isAlone ? @out.Take(at).LastOrDefault()
                : @out.Where(one => one.Entry.Id == fluid.Entry.Id && one.Reading is { } before && line.Readings.Index().First(other => ReferenceEquals(other.Item, before)).Index < told).LastOrDefault();
            if (of is { Moved.Move: not Move.SupplySafe, Reading: { } host } && !LineReader.IsDrain(host) && LineReader.RanOut(line.Text) && IsCaught(reading, fluid, @out))
            {
                ran.Add(fluid, of);
            }
        }

        return ran;
    }

    private static bool IsCaught(Reading reading, ToldMove fluid, IReadOnlyList<ToldMove> @out) =>
        reading.Volume_L is null or <= MostCaught_L || @out.Any(one => one.Moved.Move == Move.SupplySafe && one.Name == fluid.Name && one.Entry.Id != fluid.Entry.Id);

    public static RanOut Of(Reading reading) => new(reading.Fluid, reading.Volume_L);
}
