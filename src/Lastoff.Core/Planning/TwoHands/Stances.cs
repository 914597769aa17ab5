using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>What two people hold, or where they stand, or how the lift is: as far as one kind of change sees it.</summary>
internal sealed class Stances
{
    private readonly List<Stance> _all;
    private readonly List<(int From, long Ticks)>[] _before;
    private readonly bool[,] _serves;

    /// <param name="enter">Ticks for one person to come into a class.</param>
    /// <param name="serves">Whether an operation can be begun in a stance without a change.</param>
    private Stances(List<Stance> all, int operations, Func<int, long> enter, long lift, Func<Stance, int, bool> serves)
    {
        _all = all;
        _before = [.. all.Select(to => all.Index()
            .Where(from => from.Item != to)
            .Select(from => (from.Index, Ticks: Change(from.Item, to, enter, lift)))
            .Where(from => from.Ticks is not null)
            .Select(from => (from.Index, from.Ticks!.Value)).ToList())];
        _serves = new bool[all.Count, operations];
        for (var stance = 0; stance < all.Count; stance++)
        {
            for (var i = 0; i < operations; i++)
            {
                _serves[stance, i] = serves(all[stance], i);
            }
        }
    }

    public int Count => _all.Count;

    public IEnumerable<(int From, long Ticks)> Before(int stance) => _before[stance];

    public bool Serves(int stance, int operation) => _serves[stance, operation];

    public int Of(int a, int b, bool liftIsUp) => _all.IndexOf(new Stance(Math.Min(a, b), Math.Max(a, b), liftIsUp));

    /// <summary>Some tools, numbered from 1; every other tool counts as 0, which no operation asks for.</summary>
    /// <param name="toolOf">For every operation the number of the tool that all its ways need, or 0.</param>
    public static Stances OfTools(int tools, int[] toolOf, long ticks) => new(
        [.. Pairs(tools + 1)], toolOf.Length, tool => tool == 0 ? 0 : ticks, 0, (stance, i) => toolOf[i] == 0 || stance.Has(toolOf[i]));

    /// <param name="placeOf">For every operation the place of all its ways, or -1.</param>
    public static Stances OfPlaces(int[] placeOf, HandsSetUp ticks) => new(
        [.. Pairs(Enum.GetValues<Position>().Length).SelectMany(pair => new[] { pair, pair with { LiftIsUp = true } })],
        placeOf.Length, _ => ticks.Place, ticks.Lift, (stance, i) => placeOf[i] < 0 || stance.Has(placeOf[i]) && stance.LiftIsUp == IsUnder(placeOf[i]));

    public static Stances OfLift(int[] placeOf, long ticks) => new(
        [new Stance(0, 0, false), new Stance(0, 0, true)], placeOf.Length, _ => 0, ticks, (stance, i) => placeOf[i] < 0 || stance.LiftIsUp == IsUnder(placeOf[i]));

    private static bool IsUnder(int place) => place == (int)Position.Below;

    private static IEnumerable<Stance> Pairs(int classes) =>
        Enumerable.Range(0, classes).SelectMany(a => Enumerable.Range(a, classes - a).Select(b => new Stance(a, b, false)));

    /// <summary>The ticks when one change leads from one to the other, or null.</summary>
    private static long? Change(Stance from, Stance to, Func<int, long> enter, long lift)
    {
        if (from.LiftIsUp != to.LiftIsUp)
        {
            return (from.A, from.B) == (to.A, to.B) ? lift : null;
        }

        long? least = null;
        foreach (var (stays, comes) in new[] { (to.A, to.B), (to.B, to.A) })
        {
            if (from.Has(stays))
            {
                least = Math.Min(least ?? long.MaxValue, enter(comes));
            }
        }

        return least;
    }

    /// <summary>The classes of the two, the smaller first.</summary>
    private readonly record struct Stance(int A, int B, bool LiftIsUp)
    {
        public bool Has(int which) => A == which || B == which;
    }
}
