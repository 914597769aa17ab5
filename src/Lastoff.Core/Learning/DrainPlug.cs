using Lastoff.Core.Ledger;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>“Drain plug out, 17 mm” beside “oil drained”: the plug is how the fluid is let out, and no work of its own.</summary>
internal static class DrainPlug
{
    /// <summary>Every plug that let a fluid out, with the draining told nearest to it. A filler plug lets none out, and a plug of no more name only beside the draining.</summary>
    /// <param name="out">What came off, in order.</param>
    public static IReadOnlyDictionary<ToldMove, ToldMove> Among(IReadOnlyList<ToldMove> @out)
    {
        List<(int At, ToldMove Fluid)> drained = [.. @out.Index().Where(one => one.Item is { Moved.Move: Move.SupplySafe, Reading.Deed: Deed.Drained })];
        return drained.Count == 0 ? new Dictionary<ToldMove, ToldMove>()
            : (from one in @out.Index()
               where one.Item is { Moved.Move: Move.JointUndone, Part: null, Reading: { } reading } && LineReader.IsDrain(reading)
               let nearest = drained.MinBy(fluid => Math.Abs(fluid.At - one.Index))
               where LineReader.LetsOut(one.Item.Reading!) || !LineReader.IsFilledBy(one.Item.Reading!) && Math.Abs(nearest.At - one.Index) == 1
               select (Plug: one.Item, nearest.Fluid)).ToDictionary(pair => pair.Plug, pair => pair.Fluid);
    }
}
