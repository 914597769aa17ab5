using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>What can be in the way of a draining: the part that came off last before it, and guards and covers that came off right before it. A belt holds no fluid and hides no plug, whatever came off first.</summary>
internal static class HiddenDrain
{
    /// <summary>The parts that no draining waits for unless somebody says so.</summary>
    public static IEnumerable<Said> NotInTheWay(IReadOnlyList<RecordedStrip> strips)
    {
        List<Removal> all = [.. strips.SelectMany(strip => strip.Strip.Removals)];
        var said = strips.SelectMany(strip => strip.Said).Select(word => (word.First, word.Then)).ToHashSet();
        return
            from fluid in all.Where(removal => removal is { Kind: OperationKind.MakeSafe, Drained: true }).Select(removal => removal.Name).Distinct()
            let drained = strips.Select(strip => strip.Strip.Removals).Where(removals => removals.Any(removal => removal.Kind == OperationKind.MakeSafe && removal.Name == fluid)).ToList()
            from part in all.Where(removal => removal.Sort == Sort.Part).Select(removal => removal.Name).Distinct()
            where !said.Contains((part, fluid)) && !drained.Exists(removals => RightBefore(removals, fluid).Contains(part))
            select new Said(part, fluid, false);
    }

    /// <summary>Whoever takes another part off between a guard and the draining took the guard off for that part.</summary>
    private static IEnumerable<string> RightBefore(IReadOnlyList<Removal> removals, string fluid)
    {
        List<string> parts = [.. removals.TakeWhile(removal => removal.Name != fluid).Where(removal => removal.Sort == Sort.Part).Select(removal => removal.Name).Reverse()];
        return parts.Take(1).Union(parts.TakeWhile(LineReader.IsShield));
    }
}
