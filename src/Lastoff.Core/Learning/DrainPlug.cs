using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>“Drain plug out, 17 mm” beside “oil drained”: the plug is how the fluid is let out, and is home before any goes in again.</summary>
/// <remarks>A map cannot say that a joint comes undone for a supply. So the two are one thing to do, by the name of the fluid and with the tool of the plug; on the way back the plug and its torque are named before the filling.</remarks>
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

    /// <summary>The recordings with every plug told as the way its fluid is let out, and no more as a joint: nobody drains first and opens the plug after.</summary>
    public static IReadOnlyList<RecordedStrip> Folded(IReadOnlyList<RecordedStrip> strips)
    {
        List<Removal> told = [.. strips.SelectMany(strip => strip.Strip.Removals).Where(removal => removal.LetsOut is not null)];
        return told.Count == 0 ? strips : [.. strips.Select(strip => new RecordedStrip(
            Folded(strip.Strip, told, strips),
            [.. strip.Belongs.Where(pair => FluidOf(told, pair.Joint) is null)],
            Folded(strip.Said, told)))];
    }

    /// <summary>What is said of a plug is said of its fluid.</summary>
    public static IReadOnlyList<Said> Folded(IReadOnlyList<Said> said, IReadOnlyList<RecordedStrip> strips) =>
        Folded(said, [.. strips.SelectMany(strip => strip.Strip.Removals).Where(removal => removal.LetsOut is not null)]);

    private static IReadOnlyList<Said> Folded(IReadOnlyList<Said> said, List<Removal> plugs) =>
        [.. said.Select(word => word with { First = FluidOf(plugs, word.First) ?? word.First, Then = FluidOf(plugs, word.Then) ?? word.Then }).Where(word => word.First != word.Then)];

    private static Strip Folded(Strip strip, List<Removal> plugs, IReadOnlyList<RecordedStrip> strips)
    {
        var fluids = plugs.Select(plug => plug.LetsOut!).ToHashSet();
        string? Drained(Removal removal) => removal.Kind == OperationKind.Undo ? FluidOf(plugs, removal.Name) : removal.Kind == OperationKind.MakeSafe && fluids.Contains(removal.Name) ? removal.Name : null;
        return strip with
        {
            // Out with the plug, or told to be drained: the sooner of the two is when it ran.
            Removals = [.. strip.Removals.Index().GroupBy(one => (Drained(one.Item), Drained(one.Item) is null ? one.Index : 0), one => one.Item)
                .Select(same => same.Key.Item1 is { } fluid ? LetOut(fluid, [.. same], plugs, strips) : same.First())],
            Renewals =
            [
                .. strip.Renewals.Select(renewal => renewal with { For = FluidOf(plugs, renewal.For) ?? renewal.For }),
                .. from removal in strip.Removals
                   where removal.OneTime && Drained(removal) is not null
                   select new SeenRenewal(removal.Name, Drained(removal)!, RenewalKind.Fastener, removal.Count),
            ],
        };
    }

    /// <param name="told">The draining, its plugs, or both, as this recording has them.</param>
    /// <param name="plugs">Those of all recordings: that nobody told of a plug in this one does not say that it stayed in.</param>
    private static Removal LetOut(string fluid, IReadOnlyList<Removal> told, List<Removal> plugs, IReadOnlyList<RecordedStrip> strips)
    {
        var draining = told.FirstOrDefault(removal => removal.Kind == OperationKind.MakeSafe)
            ?? new Removal(OperationKind.MakeSafe, fluid) { Drained = true, Supply = strips.SelectMany(strip => strip.Strip.Removals).First(removal => removal.Kind == OperationKind.MakeSafe && removal.Name == fluid).Supply };
        List<Removal> here = [.. told.Where(removal => removal.Kind == OperationKind.Undo)];
        List<Removal> by = here.Count > 0 ? here : [.. plugs.Where(plug => plug.LetsOut == fluid).DistinctBy(plug => plug.Name)];
        return draining with
        {
            LetOutBy = by,
            Tool = by[0].Tool,
            At = draining.At == Position.Above ? by[0].At : draining.At,
            Minutes = here.Count == 0 ? null : here.Aggregate(draining.Minutes, (sum, plug) => sum + plug.Minutes),
            BackMinutes = here.Count == 0 ? null : here.Aggregate(draining.BackMinutes, (sum, plug) => sum + plug.BackMinutes),
            Trouble = draining.Trouble ?? here.Select(plug => plug.Trouble).FirstOrDefault(trouble => trouble is not null),
            Cautions = [.. draining.Cautions.Concat(here.SelectMany(plug => plug.Cautions)).Distinct()],
            Told = [.. draining.Told.Concat(here.SelectMany(plug => plug.Told)).Distinct()],
            Lessons = [.. draining.Lessons.Concat(here.SelectMany(plug => plug.Lessons)).Distinct()],
            Tray = here.Select(plug => plug.Tray).FirstOrDefault(tray => tray is not null),
        };
    }

    private static string? FluidOf(List<Removal> plugs, string name) => plugs.Find(plug => plug.Name == name)?.LetsOut;
}
