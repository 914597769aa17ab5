using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>“Drain plug out, 17 mm” beside “oil drained”: the plug is how the fluid is let out, and is home before any goes in again.</summary>
/// <remarks>A map cannot say that a joint comes undone for a supply. So the two are one thing to do, by the name of the fluid and with the tool of the plug; on the way back the plug is named before the filling, with its torque where one was told and no other.</remarks>
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

    /// <summary>The recordings with every plug told as the way its fluid is let out, and no more as a joint: nobody drains first and opens the plug after. One with its hole covered stays a joint, or the cover would be lost.</summary>
    public static IReadOnlyList<RecordedStrip> Folded(IReadOnlyList<RecordedStrip> strips)
    {
        var known = Known(strips);
        List<Removal> plugs = [.. strips.SelectMany(strip => strip.Strip.Removals.Where(removal => FluidOf(strip.Strip, removal, known) is not null))];
        var kinds = strips.SelectMany(strip => strip.Strip.Removals).Where(removal => removal.Drained).GroupBy(removal => removal.Name).ToDictionary(same => same.Key, same => same.First().Supply);
        return plugs.Count == 0 ? strips : [.. strips.Select(strip => Folded(strip, plugs, known, kinds))];
    }

    /// <summary>What a person says of a plug is said of its fluid, where no other thing has its name.</summary>
    public static IReadOnlyList<Said> Folded(IReadOnlyList<Said> said, IReadOnlyList<RecordedStrip> strips)
    {
        var known = Known(strips);
        var fluids = strips.SelectMany(strip => strip.Strip.Removals.Where(removal => removal.Kind == OperationKind.Undo).Select(removal => (removal.Name, Fluid: FluidOf(strip.Strip, removal, known))))
            .GroupBy(pair => pair.Name, pair => pair.Fluid).ToDictionary(same => same.Key, same => same.Distinct().ToList() is [var only] ? only : null);
        return Of(said, name => fluids.GetValueOrDefault(name));
    }

    /// <summary>The fluid of each name of a plug, for recordings that have the plug and no draining: only where all the others agree.</summary>
    private static Dictionary<string, string?> Known(IReadOnlyList<RecordedStrip> strips)
    {
        var covered = strips.SelectMany(strip => strip.Strip.Openings).Select(opening => opening.On).ToHashSet();
        return strips.SelectMany(strip => strip.Strip.Removals).Where(removal => removal.LetsOut is not null && !covered.Contains(removal.Name))
            .GroupBy(removal => removal.Name, removal => removal.LetsOut).ToDictionary(same => same.Key, same => same.Distinct().ToList() is [var only] ? only : null);
    }

    private static string? FluidOf(Strip strip, Removal removal, Dictionary<string, string?> known) =>
        removal.Kind != OperationKind.Undo || !known.TryGetValue(removal.Name, out var only) ? null
        : removal.LetsOut ?? (strip.Removals.Any(other => other.Drained) ? null : only);

    private static RecordedStrip Folded(RecordedStrip told, List<Removal> plugs, Dictionary<string, string?> known, Dictionary<string, SupplyKind> kinds)
    {
        var strip = told.Strip;
        var fluids = plugs.Select(plug => plug.LetsOut).OfType<string>().ToHashSet();
        var own = strip.Removals.Where(removal => removal.Kind == OperationKind.Undo).GroupBy(removal => removal.Name).ToDictionary(same => same.Key, same => FluidOf(strip, same.First(), known));
        string? Fluid(string name) => own.GetValueOrDefault(name);
        string? Drained(Removal removal) => removal.Kind == OperationKind.Undo ? Fluid(removal.Name) : removal.Kind == OperationKind.MakeSafe && fluids.Contains(removal.Name) ? removal.Name : null;
        return new RecordedStrip(
            strip with
            {
                // Out with the plug, or told to be drained: the sooner of the two is when it ran.
                Removals = [.. strip.Removals.Index().GroupBy(one => (Drained(one.Item), Drained(one.Item) is null ? one.Index : 0), one => one.Item)
                    .Select(same => same.Key.Item1 is { } fluid ? LetOut(fluid, kinds[fluid], [.. same], plugs) : same.First())],
                Renewals =
                [
                    .. strip.Renewals.Select(renewal => renewal with { For = Fluid(renewal.For) ?? renewal.For }),
                    .. from removal in strip.Removals
                       where removal.OneTime && removal.Kind == OperationKind.Undo && Fluid(removal.Name) is not null
                       select new SeenRenewal(removal.Name, Fluid(removal.Name)!, RenewalKind.Fastener, removal.Count),
                ],
            },
            [.. told.Belongs.Where(pair => Fluid(pair.Joint) is null)],
            Of(told.Said, Fluid));
    }

    private static IReadOnlyList<Said> Of(IReadOnlyList<Said> said, Func<string, string?> fluidOf) =>
        [.. said.Select(word => word with { First = fluidOf(word.First) ?? word.First, Then = fluidOf(word.Then) ?? word.Then }).Where(word => word.First != word.Then)];

    /// <param name="told">The draining, its plugs, or both, as this recording has them.</param>
    /// <param name="plugs">Those of all recordings: that nobody told of a plug in this one does not say that it stayed in, and a supply is let out in one way.</param>
    private static Removal LetOut(string fluid, SupplyKind kind, IReadOnlyList<Removal> told, List<Removal> plugs)
    {
        var draining = told.FirstOrDefault(removal => removal.Kind == OperationKind.MakeSafe) ?? new Removal(OperationKind.MakeSafe, fluid) { Drained = true, Supply = kind };
        List<Removal> here = [.. told.Where(removal => removal.Kind == OperationKind.Undo)];
        List<Removal> all = [.. plugs.Where(plug => plug.LetsOut == fluid)];
        return draining with
        {
            LetOutBy = here.Count > 0 ? here : [.. all.DistinctBy(plug => plug.Name)],
            // With the size of its head, where anybody said it.
            Tool = all.GroupBy(plug => plug.Tool, plug => plug.Tool).OrderByDescending(same => same.Key.Drive is not null).ThenByDescending(same => same.Count()).First().Key,
            At = draining.At == Position.Above ? all.GroupBy(plug => plug.At).MaxBy(same => same.Count())!.Key : draining.At,
            Minutes = here.Aggregate(draining.Minutes, (sum, plug) => sum + plug.Minutes),
            BackMinutes = here.Aggregate(draining.BackMinutes, (sum, plug) => sum + plug.BackMinutes),
            Trouble = draining.Trouble ?? here.Select(plug => plug.Trouble).FirstOrDefault(trouble => trouble is not null),
            Cautions = [.. draining.Cautions.Concat(here.SelectMany(plug => plug.Cautions)).Distinct()],
            Told = [.. draining.Told.Concat(here.SelectMany(plug => plug.Told)).Distinct()],
            Lessons = [.. draining.Lessons.Concat(here.SelectMany(plug => plug.Lessons)).Distinct()],
            Tray = here.Select(plug => plug.Tray).FirstOrDefault(tray => tray is not null),
        };
    }
}
