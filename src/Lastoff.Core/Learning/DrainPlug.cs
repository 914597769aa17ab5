using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>“Drain plug out, 17 mm” beside “oil drained”: the plug is how the fluid is let out, and a joint that has to be made before any goes in again.</summary>
/// <remarks>A map cannot say that a joint comes undone for a supply. So the plug comes right after the draining, which says by its name where the fluid runs out; on the way back that is the right way round by itself.</remarks>
internal static class DrainPlug
{
    /// <summary>Every plug that let a fluid out, with the draining told nearest to it. A filler plug lets none out, and a plug of no more name only beside the draining.</summary>
    /// <param name="out">What came off, in order.</param>
    public static IReadOnlyDictionary<ToldMove, ToldMove> Among(IReadOnlyList<ToldMove> @out)
    {
        List<(int At, ToldMove Fluid)> drained = [.. @out.Index().Where(one => one.Item is { Moved.Move: Move.SupplySafe, Reading.Deed: Deed.Drained })];
        return drained.Count == 0 ? new Dictionary<ToldMove, ToldMove>()
            : (from one in @out.Index()
               where one.Item is { Moved.Move: Move.JointUndone, Reading: { } reading } && LineReader.IsDrain(reading)
               let nearest = drained.MinBy(fluid => Math.Abs(fluid.At - one.Index))
               where LineReader.LetsOut(one.Item.Reading!) || !LineReader.IsFilledBy(one.Item.Reading!) && Math.Abs(nearest.At - one.Index) == 1
               select (Plug: one.Item, nearest.Fluid)).ToDictionary(pair => pair.Plug, pair => pair.Fluid);
    }

    /// <summary>The same order, but that no plug comes before its draining.</summary>
    public static IReadOnlyList<ToldMove> AfterDraining(IReadOnlyList<ToldMove> @out, IReadOnlyDictionary<ToldMove, ToldMove> plugs)
    {
        var early = plugs.Where(pair => @out.Index().First(one => one.Item == pair.Key).Index < @out.Index().First(one => one.Item == pair.Value).Index).ToLookup(pair => pair.Value, pair => pair.Key);
        return [.. @out.Where(one => !(plugs.TryGetValue(one, out var fluid) && early[fluid].Contains(one))).SelectMany(one => early[one].Prepend(one))];
    }

    /// <summary>A fluid that was let out by a plug in one recording was in all: that nobody told of the plug does not say that it stayed in.</summary>
    public static IReadOnlyList<Strip> InEach(IReadOnlyList<Strip> strips)
    {
        var plugs = strips.SelectMany(strip => strip.Removals).Where(removal => removal.LetsOut is not null).GroupBy(removal => removal.LetsOut!).ToDictionary(
            same => same.Key, same => same.First() with { Minutes = null, BackMinutes = null, Trouble = null, Tray = null, Told = [], Lessons = [] });
        return
        [
            .. strips.Select(strip => strip with
            {
                Removals =
                [
                    .. from removal in strip.Removals
                       let plug = removal.Kind == OperationKind.MakeSafe && !strip.Removals.Any(other => other.LetsOut == removal.Name) ? plugs.GetValueOrDefault(removal.Name) : null
                       from one in plug is null || strip.Removals.Any(other => other.Name == plug.Name) ? [removal] : new[] { removal, plug }
                       select one,
                ],
            }),
        ];
    }
}
