using System.Globalization;
using Google.OrTools.Sat;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Bench;

/// <summary>The same round trip for a general solver: one circuit of optional nodes out, one for the way back read backwards, the same operations in both.</summary>
public sealed class CircuitModel
{
    private readonly RoundTrip _trip;
    private readonly Trip _hint;
    private readonly CpModel _model = new();
    private readonly BoolVar[] _done;
    private readonly List<LinearExpr> _cost = [];

    private CircuitModel(RoundTrip trip, Trip hint)
    {
        _trip = trip;
        _hint = hint;
        _done = [.. trip.Ways.Select((_, i) => _model.NewBoolVar($"done{i}"))];
        var hinted = hint.Out.Select(step => step.Operation).ToHashSet();
        for (var i = 0; i < _done.Length; i++)
        {
            _model.AddHint(_done[i], hinted.Contains(i));
        }

        foreach (var goal in trip.Goals)
        {
            _model.AddBoolOr(goal.Select(i => _done[i]));
        }

        Direction(outward: true, hint.Out);
        Direction(outward: false, [.. hint.Back.Reverse()]);
        foreach (var pair in trip.Pairs)
        {
            var both = _model.NewBoolVar("both");
            _model.AddImplication(both, _done[pair.First]);
            _model.AddImplication(both, _done[pair.Then]);
            _cost.Add(-(pair.SharedOut + pair.SharedBack) * both);
        }

        _model.Minimize(LinearExpr.Sum(_cost));
    }

    /// <param name="parameters">Beyond one thread and the time limit.</param>
    public static (long? Cost, long Bound, bool Proven, double Seconds) Solve(RoundTrip trip, Trip hint, double seconds, string parameters)
    {
        var built = new CircuitModel(trip, hint);
        var solver = new CpSolver { StringParameters = string.Create(CultureInfo.InvariantCulture, $"num_workers:1 max_time_in_seconds:{seconds} {parameters}") };
        var status = solver.Solve(built._model);
        var hasPlan = status is CpSolverStatus.Optimal or CpSolverStatus.Feasible;
        return (hasPlan ? (long)Math.Round(solver.ObjectiveValue) : null, (long)Math.Ceiling(solver.BestObjectiveBound - 1e-6), status == CpSolverStatus.Optimal, solver.WallTime());
    }

    private void Direction(bool outward, IReadOnlyList<TripStep> hinted)
    {
        var size = _trip.Ways.Count;
        var nodes = Enumerable.Range(0, size).SelectMany(i => _trip.Ways[i].Select((way, at) => (Operation: i, Index: at, Way: way))).ToList();
        var chosen = nodes.Select(node => _model.NewBoolVar("way")).ToList();
        var place = Enumerable.Range(0, size).Select(i => _model.NewIntVar(0, size - 1, $"place{i}")).ToList();
        var circuit = _model.AddCircuit();
        var following = hinted.Zip(hinted.Skip(1)).Select(pair => (At(pair.First), At(pair.Second))).ToHashSet();
        for (var i = 0; i < size; i++)
        {
            var own = Enumerable.Range(0, nodes.Count).Where(n => nodes[n].Operation == i).Select(n => chosen[n]).ToList();
            _model.Add(LinearExpr.Sum(own) == _done[i]);
            var where = hinted.ToList().FindIndex(step => step.Operation == i);
            _model.AddHint(place[i], Math.Max(where, 0));
        }

        for (var a = 0; a < nodes.Count; a++)
        {
            _model.AddHint(chosen[a], hinted.Any(step => At(step) == a));
            circuit.AddArc(a + 1, a + 1, chosen[a].Not());
            _cost.Add((outward ? nodes[a].Way.Out : nodes[a].Way.Back) * chosen[a]);
            Arc(0, a + 1, outward ? _trip.SetUp[_trip.StartKey, nodes[a].Way.Key] : 0, a == At(hinted[0]));
            Arc(a + 1, 0, outward ? 0 : _trip.SetUp[_trip.StartKey, nodes[a].Way.Key], a == At(hinted[^1]));
            foreach (var need in nodes[a].Way.Needs)
            {
                Need(chosen[a], need, nodes[a].Operation);
            }

            for (var b = 0; b < nodes.Count; b++)
            {
                if (nodes[a].Operation != nodes[b].Operation && !nodes[a].Way.Needs.Any(need => need.Count == 1 && need.Contains(nodes[b].Operation)))
                {
                    var change = outward ? _trip.SetUp[nodes[a].Way.Key, nodes[b].Way.Key] : _trip.SetUp[nodes[b].Way.Key, nodes[a].Way.Key];
                    var arc = Arc(a + 1, b + 1, change, following.Contains((a, b)));
                    _model.Add(place[nodes[b].Operation] >= place[nodes[a].Operation] + 1).OnlyEnforceIf(arc);
                }
            }
        }

        foreach (var pair in _trip.Pairs)
        {
            _model.Add(place[pair.First] + 1 <= place[pair.Then]).OnlyEnforceIf([_done[pair.First], _done[pair.Then]]);
        }

        int At(TripStep step) => nodes.FindIndex(node => node.Operation == step.Operation && node.Index == step.Way);

        BoolVar Arc(int from, int to, long ticks, bool isHinted)
        {
            var arc = _model.NewBoolVar("arc");
            circuit.AddArc(from, to, arc);
            _model.AddHint(arc, isHinted);
            if (ticks != 0)
            {
                _cost.Add(ticks * arc);
            }

            return arc;
        }

        void Need(BoolVar way, OperationSet need, int operation)
        {
            var before = new List<ILiteral>();
            foreach (var i in need)
            {
                var isBefore = need.Count == 1 ? way : _model.NewBoolVar("before");
                _model.AddImplication(isBefore, _done[i]);
                _model.Add(place[i] + 1 <= place[operation]).OnlyEnforceIf(isBefore);
                before.Add(isBefore);
            }

            _model.AddBoolOr([.. before, way.Not()]);
        }
    }
}
