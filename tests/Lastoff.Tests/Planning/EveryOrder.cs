using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Tests.Planning;

/// <summary>The best plan by going through every legal set and every legal order, straight from what the net allows; for small maps only.</summary>
/// <remarks>It shares nothing with the search but the map: it works on the guards (may this be done, may this be reversed) and on the map's own minutes.</remarks>
internal sealed class EveryOrder
{
    private readonly OperationNet _net;
    private readonly IReadOnlyList<JointStuck> _stuck;
    private readonly Func<Operation, Way, bool> _isStruckOut;
    private readonly List<(Tool Tool, Position At)> _keys;
    private readonly OperationSet[] _sets;

    private EveryOrder(OperationNet net, IReadOnlyList<JointStuck> stuck, Func<Operation, Way, bool> isStruckOut)
    {
        _net = net;
        _stuck = stuck;
        _isStruckOut = isStruckOut;
        _keys = [(Tool.Hand, Position.Front), .. net.Operations.SelectMany(o => o.Ways).Select(w => (w.Tool, w.At))];
        _keys = [.. _keys.Distinct()];
        _sets = [.. Enumerable.Range(0, 1 << net.Operations.Count).Select(bits =>
            OperationSet.Of(net.Operations.Count, Enumerable.Range(0, net.Operations.Count).Where(i => (bits >> i & 1) != 0)))];
    }

    /// <summary>Thousandths of a minute of the best way out and back together; the largest number when there is none.</summary>
    public static long Best(OperationNet net, OperationSet goals, OperationSet start, IReadOnlyList<JointStuck>? stuck = null) =>
        new EveryOrder(net, stuck ?? [], (_, _) => false).Best(goals, start);

    /// <summary>The same, with some ways of operations never taken.</summary>
    public static long Best(OperationNet net, OperationSet goals, OperationSet start, Func<Operation, Way, bool> isStruckOut) =>
        new EveryOrder(net, [], isStruckOut).Best(goals, start);

    private long Best(OperationSet goals, OperationSet start)
    {
        var outward = Outward(start);
        var home = Home();
        var best = long.MaxValue;
        for (var bits = 0; bits < _sets.Length; bits++)
        {
            if (goals.IsSubsetOf(_sets[bits]) && outward[bits].Min() is < long.MaxValue and var there && home[bits][0] is < long.MaxValue and var back)
            {
                best = Math.Min(best, there + back + Proofs(_sets[bits]));
            }
        }

        return best;
    }

    private long[][] Outward(OperationSet start)
    {
        var cost = Table();
        cost[Array.IndexOf(_sets, start)][0] = 0;
        for (var bits = 0; bits < _sets.Length; bits++)
        {
            for (var x = 0; x < _net.Operations.Count; x++)
            {
                if (!_net.CanDo(_sets[bits], x))
                {
                    continue;
                }

                foreach (var way in Ways(x).Where(w => w.IsOpen(_sets[bits])))
                {
                    var to = _keys.IndexOf((way.Tool, way.At));
                    for (var key = 0; key < _keys.Count; key++)
                    {
                        if (cost[bits][key] < long.MaxValue)
                        {
                            var next = cost[bits][key] + SetUp(key, to) + Thousandths(_net.Operations[x].OutMinutes * way.Times) + Risk(way) + More(x, way) + Covers(x, _sets[bits]);
                            cost[bits | 1 << x][to] = Math.Min(cost[bits | 1 << x][to], next);
                        }
                    }
                }
            }
        }

        return cost;
    }

    private long[][] Home()
    {
        var cost = Table();
        Array.Fill(cost[0], 0);
        for (var bits = 1; bits < _sets.Length; bits++)
        {
            for (var x = 0; x < _net.Operations.Count; x++)
            {
                if (!_net.CanReverse(_sets[bits], x))
                {
                    continue;
                }

                foreach (var way in Ways(x).Where(w => w.IsOpen(_sets[bits].Without(x))))
                {
                    var to = _keys.IndexOf((way.Tool, way.At));
                    var after = cost[bits & ~(1 << x)][to];
                    for (var key = 0; key < _keys.Count && after < long.MaxValue; key++)
                    {
                        var whole = SetUp(key, to) + Thousandths(_net.Operations[x].BackMinutes * way.Times) + Covers(x, _sets[bits]) + after;
                        cost[bits][key] = Math.Min(cost[bits][key], whole);
                    }
                }
            }
        }

        return cost;
    }

    private IEnumerable<Way> Ways(int operation) =>
        _net.Operations[operation].Ways.Where(way => !_isStruckOut(_net.Operations[operation], way) && PlanReplay.Found(_stuck, _net.Operations[operation], way) is not { IsClosed: true });

    private long More(int operation, Way way) => Thousandths(PlanReplay.Found(_stuck, _net.Operations[operation], way)?.ExtraMinutes ?? 0);

    private static long Risk(Way way) => way.Risk is { } risk ? Thousandths(risk.Chance * risk.Minutes) : 0;

    /// <summary>A part that is aside when it is taken off or fitted is bare before and after.</summary>
    private long Covers(int operation, OperationSet undone)
    {
        var of = _net.Operations[operation];
        var isBareAnyway = of.Kind == OperationKind.Off && undone.Any(x => _net.Operations[x].Kind == OperationKind.Aside && _net.Operations[x].Target == of.Target);
        return isBareAnyway ? 0 : _net.Map.Openings.Where(o => o.On == of.Target).Sum(o => Thousandths(o.CoverMinutes));
    }

    private long Proofs(OperationSet undone) =>
        _net.Map.Proofs.Where(p => undone.Any(x => _net.Operations[x].Target == p.For)).Sum(p => Thousandths(p.Minutes));

    private long SetUp(int from, int to)
    {
        var (a, b) = (_keys[from], _keys[to]);
        var minutes = b.Tool != a.Tool && !b.Tool.IsHand ? _net.Map.SetUp.Tool : 0;
        minutes += a.At != b.At ? _net.Map.SetUp.Position : 0;
        minutes += a.At == Position.Below != (b.At == Position.Below) ? _net.Map.SetUp.Lift : 0;
        return Thousandths(minutes);
    }

    private long[][] Table()
    {
        var table = new long[_sets.Length][];
        for (var i = 0; i < table.Length; i++)
        {
            table[i] = new long[_keys.Count];
            Array.Fill(table[i], long.MaxValue);
        }

        return table;
    }

    private static long Thousandths(double minutes) => (long)Math.Round(minutes * 1000);
}
