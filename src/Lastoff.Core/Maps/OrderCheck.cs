namespace Lastoff.Core.Maps;

/// <summary>Everything in the map can be undone in some order, and every alternative can be of use in one.</summary>
/// <remarks>
/// What is blocked for good always waits in a circle somewhere, so naming the circles names every reason why a part can never come off.
/// Runs on what can be made sense of in a map with other faults, reading these so that they block nothing.
/// </remarks>
internal sealed class OrderCheck
{
    private readonly Map _map;
    private readonly MapNames _names;
    private readonly FaultList _faults;
    private readonly OperationNet _net;
    private readonly Unblocking _unblocking;

    private OrderCheck(Map map, MapNames names, FaultList faults)
    {
        _map = map;
        _names = names;
        _faults = faults;
        _net = OperationNet.From(Sense(map, names));
        _unblocking = new Unblocking(_net);
    }

    public static void Check(Map map, MapNames names, FaultList faults)
    {
        var check = new OrderCheck(map, names, faults);
        check.Alternatives(check.Circles());
    }

    /// <summary>Reports every circle once, and returns the operations in them.</summary>
    private HashSet<int> Circles()
    {
        var inCircles = new HashSet<int>();
        while (true)
        {
            var done = _unblocking.Run(inCircles).Done;
            var blocked = Array.IndexOf(done, false);
            if (blocked < 0)
            {
                return inCircles;
            }

            var way = new List<int>();
            for (; !way.Contains(blocked); blocked = WaitsFor(blocked, done))
            {
                way.Add(blocked);
            }

            var circle = way[way.IndexOf(blocked)..];
            Report(circle, done);
            inCircles.UnionWith(circle.SelectMany(SameTarget));
        }
    }

    private void Report(List<int> operations, bool[] done)
    {
        var circle = Circle.From([.. operations.Select(o => _net.Operations[o].Target)], LineOf);
        var first = _net.Operations[operations.First(o => _net.Operations[o].Target == circle.First)];
        var field = first.Ways[0].First.Any(need => IsUnmet(need, done))
            ? first.Kind is OperationKind.MakeSafe or OperationKind.Undo ? ".needs" : ""
            : ".reach";
        _faults.AddBetween(_names.PathOf(circle.First) + field, $"Nothing in this circle can ever be first: {circle.Spell("waits for")}. Take one of these waits out.");
    }

    /// <summary>One operation that a blocked one cannot do without.</summary>
    private int WaitsFor(int operation, bool[] done)
    {
        var need = _net.Operations[operation].Ways[0].Needs.First(need => IsUnmet(need, done));
        // Laying a part aside asks for no more than taking it off: if even that is blocked, there is the cause.
        return need.OrderBy(member => _net.Operations[member].Kind != OperationKind.Aside).First();
    }

    private static bool IsUnmet(OperationSet need, bool[] done) => !need.Any(member => done[member]);

    private IEnumerable<int> SameTarget(int operation)
    {
        var target = _net.Operations[operation].Target;
        yield return operation;
        foreach (var kind in new[] { OperationKind.Aside, OperationKind.Off })
        {
            if (_net.TryFind(kind, target, out var same) && same != operation)
            {
                yield return same;
            }
        }
    }

    /// <summary>Reports every alternative that opens only once the work it is for has been done another way.</summary>
    private void Alternatives(HashSet<int> inCircles)
    {
        var late = _unblocking.Run(inCircles).Late
            .Where(x => _net.Operations[x.Operation].Kind != OperationKind.Aside && !inCircles.Contains(x.Operation))
            .GroupBy(x => x.Operation, x => x.Way);
        foreach (var ways in late)
        {
            var operation = _net.Operations[ways.Key];
            var without = _unblocking.Run(inCircles, except: ways.Key).Done;
            foreach (var way in ways)
            {
                var waiting = operation.Ways[way].Needs.Where(need => IsUnmet(need, without)).Select(set => _net.Operations[set.First()].Target).ToList();
                if (waiting.Count > 0)
                {
                    _faults.AddBetween(
                        $"{_names.PathOf(operation.Target)}.reach.either[{way}]",
                        $"This alternative can never be open before {operation.Target} is undone: it wants {string.Join(" and ", waiting)} out of the way, which can only be after it; take the alternative out, or correct what {waiting[0]} waits for.");
                }
            }
        }
    }

    private int LineOf(string id) => _faults.LineOf(_names.PathOf(id));

    /// <summary>The map without what has no meaning: unknown names, identifiers used a second time.</summary>
    private static Map Sense(Map map, MapNames names)
    {
        var holding = map.Joints.SelectMany(j => j.Holds.Select(part => (part, j.Id))).ToLookup(x => x.part, x => x.Id);
        var lostCarrier = map.Parts.Where(p => p.RidesOn is { } on && !names.IsPart(on)).Select(p => p.Id).ToHashSet();

        IReadOnlyList<string> Parts(IEnumerable<string> ids) => [.. ids.Where(names.IsPart).Distinct()];
        IReadOnlyList<string> ToClear(IEnumerable<string> ids) => [.. Parts(ids).Where(id => !lostCarrier.Contains(id))];
        IReadOnlyList<string> Supplies(IEnumerable<string> ids) => [.. ids.Where(names.IsSupply).Distinct()];
        Reach Known(Reach reach) => new(
            ToClear(reach.Clear), Parts(reach.Off), [.. reach.Either.Select(way => way with { Clear = ToClear(way.Clear), Off = Parts(way.Off) })]);
        Aside? Leaving(Part part) => part.Aside is { } aside && !aside.Leaves.All(names.IsJoint) ? aside with { Leaves = [.. holding[part.Id]] } : part.Aside;

        return map with
        {
            Supplies = [.. map.Supplies.Where((s, i) => names.PathOf(s.Id) == $"supplies[{i}]").Select(s => s with { Needs = Supplies(s.Needs), Reach = Known(s.Reach) })],
            Parts = [.. map.Parts.Where((p, i) => names.PathOf(p.Id) == $"parts[{i}]").Select(p => p with { Needs = Supplies(p.Needs), Reach = Known(p.Reach), Aside = Leaving(p), RidesOn = lostCarrier.Contains(p.Id) ? null : p.RidesOn })],
            Joints = [.. map.Joints.Where((j, i) => names.PathOf(j.Id) == $"joints[{i}]").Select(j => j with { Holds = Parts(j.Holds), Needs = Supplies(j.Needs), Reach = Known(j.Reach) })],
            Openings = [],
            Renewals = [],
            Proofs = [],
        };
    }
}
