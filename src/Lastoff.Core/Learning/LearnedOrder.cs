using Lastoff.Core.Maps;

namespace Lastoff.Core.Learning;

/// <summary>One way in which a thing was seen to be done: with this tool, from this place, after these.</summary>
internal sealed record SeenWay(Tool Tool, Position At, IReadOnlyList<int> Strips, IReadOnlySet<Event> After);

/// <summary>What must wait for what, as far as the strips and what a person said can tell.</summary>
/// <remarks>
/// A thing waits for whatever came before it in every strip in which it came off, so nothing that was seen is ever forbidden, and no order is allowed
/// that every strip speaks against. A strip in which it came off without the other ever being touched speaks against as well.
/// </remarks>
internal sealed class LearnedOrder
{
    private readonly Sightings _seen;
    private readonly Dictionary<(string, string), bool> _said;
    private readonly Dictionary<Event, IReadOnlyList<SeenWay>> _ways = [];
    private readonly Dictionary<Event, HashSet<Event>> _before = [];
    private readonly Lazy<ChanceOrder> _chance;
    private readonly Lazy<ILookup<string, string>> _waiting;

    public LearnedOrder(Sightings seen, IReadOnlyList<Said> said)
    {
        _seen = seen;
        _said = said.GroupBy(s => (s.First, s.Then)).ToDictionary(same => same.Key, same => same.Last().InTheWay);
        foreach (var what in seen.Events)
        {
            _ways[what] = Ways(what);
        }

        FindBefore();
        _chance = new Lazy<ChanceOrder>(Chance);
        _waiting = new Lazy<ILookup<string, string>>(() =>
            (from what in _seen.Events from way in Of(what) from first in way.After select (First: first.Name, Then: what.Name)).Distinct().ToLookup(pair => pair.First, pair => pair.Then));
    }

    /// <summary>Two events that each wait for the other by what was said, or null. Until there are none, nothing else here may be asked.</summary>
    public (Event, Event)? Circle()
    {
        var stuck = Stuck();
        return stuck.Count == 0 ? null : (WaysToHappen(stuck[0]).First().First(stuck.Contains), stuck[0]);
    }

    /// <summary>Whether what the word says comes first waits, be it through others, for what it says waits for it.</summary>
    public bool IsInACircle(Said word)
    {
        var stuck = Stuck().ToHashSet();
        var first = stuck.Where(e => e.Name == word.First).ToHashSet();
        for (var before = -1; before != first.Count;)
        {
            before = first.Count;
            first.UnionWith(first.SelectMany(WaysToHappen).SelectMany(after => after).Where(stuck.Contains).ToList());
        }

        return first.Any(e => e.Name == word.Then);
    }

    /// <summary>What can never happen by what was said, in the order in which it was seen.</summary>
    private List<Event> Stuck()
    {
        var free = new HashSet<Event>();
        for (var before = -1; before != free.Count;)
        {
            before = free.Count;
            free.UnionWith(_seen.Events.Where(e => WaysToHappen(e).Any(after => after.All(free.Contains))));
        }

        return [.. _seen.Events.Where(e => !free.Contains(e))];
    }

    /// <summary>The ways of doing it, each waiting for nothing that another of its waits sees to already.</summary>
    public IReadOnlyList<SeenWay> Of(Event what)
    {
        var ways = _ways[what];
        bool IsNeeded(Event first, SeenWay way) => !way.After.Any(other => _before[other].Contains(first))
            && !(what.What == Happening.Off && _before[new Event(Happening.Clear, what.Name)].Contains(first));
        return [.. ways.Select(way => way with { After = way.After.Where(e => IsNeeded(e, way) || (e.What == Happening.Safe && ways.Any(other => IsNeeded(e, other)))).ToHashSet() })];
    }

    public Wait Wait(Event first, Event then, SeenWay way) => IsSaid(first, then) is true
        ? new Wait(first.Name, then.Name, Kept(first, then, way.Strips), 1)
        : new Wait(first.Name, then.Name, way.Strips.Count, _chance.Value.Necessary(way.Strips.Count)) { IsAsked = way.Strips.Count == 1 && IsPart(first) && (then.What == Happening.Safe || IsAlone(first) || IsLaidBare(then)) };

    /// <summary>Two things of which the recordings say that the one was, and was not, in the way of the other.</summary>
    public Wait? Contradicted(string first, string then)
    {
        var pair = (from one in _seen.Events where one.Name == first from other in _seen.Events where other.Name == then && one.CanHoldUp(other) select (one, other)).FirstOrDefault();
        return pair == default || IsSaid(pair.one, pair.other) is not null ? null
            : Together(pair.one, pair.other) is var (kept, both) ? new Wait(first, then, kept, _chance.Value.Necessary(kept)) { Of = both, IsAsked = true } : null;
    }

    /// <summary>What is made safe, and what holds a part, is never in question.</summary>
    private static bool IsPart(Event what) => what.What is Happening.Clear or Happening.Off;

    /// <summary>A part that one thing alone waits for: but for that it could stay on.</summary>
    private bool IsAlone(Event first) => _waiting.Value[first.Name].Count() == 1;

    /// <summary>Some part was said not to be in its way, and what stood behind that part shows only now: whoever said the one can say the other.</summary>
    private bool IsLaidBare(Event then) => _said.Any(word => !word.Value && word.Key.Item2 == then.Name && _seen.Events.Any(e => IsPart(e) && e.Name == word.Key.Item1));

    /// <summary>A way for every tool and place it was done with, most seen first. What a joint waits for differs with where one stands and what one holds.</summary>
    private IReadOnlyList<SeenWay> Ways(Event what)
    {
        List<int> strips = [.. Enumerable.Range(0, _seen.Strips).Where(strip => _seen.Happens(what, strip))];
        if (what.What is Happening.Clear or Happening.Off)
        {
            return [new SeenWay(Tool.Hand, Position.Above, strips, After(what, strips))];
        }

        var sort = what.What == Happening.Safe ? Sort.Supply : Sort.Joint;
        List<SeenWay> ways =
        [
            .. _seen.Of(sort, what.Name).DistinctBy(s => s.Strip).GroupBy(s => (s.Removal.Tool, s.Removal.At), s => s.Strip)
                .OrderByDescending(way => way.Count()).ThenBy(way => way.First())
                .Select(way => new SeenWay(way.Key.Tool, way.Key.At, [.. way], After(what, [.. way]))),
        ];
        // A map says once, for all ways, which supplies must be safe.
        return [.. ways.Select(way => way with { After = way.After.Where(e => e.What != Happening.Safe || ways.All(other => other.After.Contains(e))).ToHashSet() })];
    }

    private HashSet<Event> After(Event what, IReadOnlyList<int> strips) =>
        [.. _seen.Events.Where(e => e.CanHoldUp(what) && (IsSaid(e, what) ?? (IsSaid(what, e) is not true && Kept(e, what, strips) == strips.Count)))];

    private bool? IsSaid(Event first, Event then) => _said.TryGetValue((first.Name, then.Name), out var inTheWay) ? inTheWay : null;

    private int Kept(Event first, Event then, IReadOnlyList<int> strips) => strips.Count(strip => _seen.IsBefore(first, then, strip));

    private (int First, int Times) Together(Event a, Event b)
    {
        var both = Enumerable.Range(0, _seen.Strips).Where(strip => _seen.Happens(a, strip) && _seen.Happens(b, strip)).ToList();
        return (Kept(a, b, both), both.Count);
    }

    /// <summary>What follows from other waits tells nothing of itself, and what a map cannot say is never asked.</summary>
    private ChanceOrder Chance()
    {
        List<Event> things = [.. _seen.Events.Where(e => e.What != Happening.Off)];
        return new ChanceOrder(
            from i in Enumerable.Range(0, things.Count)
            from j in Enumerable.Range(0, i)
            where (things[i].CanHoldUp(things[j]) || things[j].CanHoldUp(things[i])) && !Follows(things[i], things[j]) && !Follows(things[j], things[i])
            select Together(things[i], things[j]),
            things.Count);
    }

    private bool Follows(Event first, Event then) => _ways[then].All(way => way.After.Any(other => _before[other].Contains(first)));

    /// <summary>Finds, for every event, all that has happened by then whichever way was taken. Ways may lead in a circle, so it begins with everything (null) and strikes out.</summary>
    private void FindBefore()
    {
        for (var changed = true; changed;)
        {
            changed = false;
            foreach (var what in _seen.Events)
            {
                if (BeforeByAnyWay(what) is { } now && (!_before.TryGetValue(what, out var had) || now.Count < had.Count))
                {
                    _before[what] = now;
                    changed = true;
                }
            }
        }
    }

    private HashSet<Event>? BeforeByAnyWay(Event what)
    {
        HashSet<Event>? common = null;
        foreach (var after in WaysToHappen(what).Where(after => after.All(_before.ContainsKey)))
        {
            HashSet<Event> all = [.. after, .. after.SelectMany(first => _before[first])];
            common = common is null ? all : [.. common.Where(all.Contains)];
        }

        return common;
    }

    /// <summary>Sets of events after any of which it may be so: those of its ways, or that a part went away with what carries it.</summary>
    private IEnumerable<IReadOnlySet<Event>> WaysToHappen(Event what)
    {
        foreach (var way in _ways[what])
        {
            // To be off is to be out of the way.
            yield return what.What == Happening.Off ? new HashSet<Event>(way.After) { new(Happening.Clear, what.Name) } : way.After;
        }

        if (what.What == Happening.Clear && _seen.CarrierOf(what.Name) is { } carrier)
        {
            yield return new HashSet<Event> { new(Happening.Clear, carrier) };
        }
    }
}
