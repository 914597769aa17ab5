using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Learning;

/// <summary>What can be in the way of a draining: a guard or cover that came off right before it. A key or a belt holds no fluid and hides no plug, whatever came off first.</summary>
internal static class HiddenDrain
{
    /// <summary>The parts that no draining waits for unless somebody says so.</summary>
    public static IReadOnlyList<Said> NotInTheWay(IReadOnlyList<Strip> strips)
    {
        List<Removal> all = [.. strips.SelectMany(strip => strip.Removals)];
        return
        [
            .. from fluid in all.Where(removal => removal is { Kind: OperationKind.MakeSafe, Drained: true }).Select(removal => removal.Name).Distinct()
               from part in all.Where(removal => removal.Sort == Sort.Part).Select(removal => removal.Name).Distinct()
               where !strips.Any(strip => RightBefore(strip, fluid).Contains(part))
               select new Said(part, fluid, false),
        ];
    }

    /// <summary>Whoever takes another part off between a guard and the draining took the guard off for that part.</summary>
    private static IEnumerable<string> RightBefore(Strip strip, string fluid) =>
        strip.Removals.TakeWhile(removal => removal.Name != fluid).Where(removal => removal.Sort == Sort.Part).Reverse().TakeWhile(removal => LineReader.IsShield(removal.Name)).Select(removal => removal.Name);
}
