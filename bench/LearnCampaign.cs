using Lastoff.Core.Learning;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.Bench;

/// <summary>What came of learning one map from so many strips, held against the map they were drawn from.</summary>
/// <param name="True">Pairs of things of which the first must really come before the second, among the things seen.</param>
/// <param name="Learned">Pairs of which the learned map says so.</param>
/// <param name="Both">Pairs of both.</param>
/// <param name="Forbidden">Of the strips it was learned from, those that it would not allow.</param>
/// <param name="NewAllowed">Of so many <paramref name="Fresh"/> strips, legal and never seen, those that it allows.</param>
/// <param name="DrawnLegal">Of so many <paramref name="Fresh"/> orders drawn from it, those that are legal in truth.</param>
/// <param name="PlanLegal">Its plan is legal in truth.</param>
/// <param name="DoubtNamed">Where its plan is not, what could not be done is named as in doubt, or as not recorded.</param>
/// <param name="Waits">Every wait of the learned map: how sure it was said to be, and whether it is true.</param>
public sealed record LearnResult(
    int True, int Learned, int Both, int Forbidden, int NewAllowed, int DrawnLegal, int Fresh, bool PlanLegal, bool DoubtNamed, IReadOnlyList<(double Sure, bool IsTrue)> Waits);

/// <summary>Learns maps from random legal strips of a known one.</summary>
public static class LearnCampaign
{
    private const int Fresh = 10;

    private static readonly Predicate<Operation> Anything = _ => true;

    private static readonly Dictionary<StepKind, OperationKind> Moves = new()
    {
        [StepKind.MakeSafe] = OperationKind.MakeSafe,
        [StepKind.Undo] = OperationKind.Undo,
        [StepKind.LayAside] = OperationKind.Aside,
        [StepKind.TakeOff] = OperationKind.Off,
    };

    public static LearnResult Once(OperationNet truth, string goal, int strips, int seed)
    {
        var random = new Random(seed);
        List<IReadOnlyList<int>> orders = [.. Enumerable.Range(0, strips).Select(_ => RandomStrip.Order(truth, goal, random, Anything))];
        var map = LearnedMap.From("learned", "Learned", [.. orders.Select((order, i) => RandomStrip.Recorded(truth, order, $"{i + 1}"))], []).Or(sentence => throw new InvalidOperationException(sentence));
        var reading = MapReader.Read(map.Yaml, "learned.map.yaml");
        var learned = OperationNet.From(reading.Map ?? throw new InvalidOperationException(reading.Describe(reading.Faults[0])));

        HashSet<string> seen = [.. orders.SelectMany(order => order).Select(operation => truth.Operations[operation].Target)];
        // Taking off what was only ever laid aside would be a step into what nobody recorded, and the map says so.
        HashSet<(OperationKind, string)> moves = [.. orders.SelectMany(order => Named(truth, order))];
        var (necessary, said) = (Necessary(truth, seen), Necessary(learned, seen));
        var plan = Planner.Make(learned, Goal.Renewing(goal), learned.Nothing, new PlanLimits(200)).Plan!;
        var fault = FirstFault(truth, plan.Out.Where(step => Moves.ContainsKey(step.Kind)).Select(step => (Moves[step.Kind], step.Target)));
        return new LearnResult(
            necessary.Count,
            said.Count,
            necessary.Count(said.Contains),
            orders.Count(order => FirstFault(learned, Named(truth, order)) is not null),
            Enumerable.Range(0, Fresh).Count(_ => FirstFault(learned, Named(truth, RandomStrip.Order(truth, goal, random, Anything))) is null),
            Enumerable.Range(0, Fresh).Count(_ => FirstFault(truth, Named(learned, RandomStrip.Order(learned, goal, random, operation => moves.Contains((operation.Kind, operation.Target))))) is null),
            Fresh,
            fault is null,
            fault is not null && (!seen.Contains(fault) || map.InDoubt.Any(wait => wait.First == fault || wait.Then == fault)),
            [.. map.Waits.Select(wait => (wait.Sure, necessary.Contains((wait.First, wait.Then))))]);
    }

    /// <summary>Every two of these things of which the second can never be touched while the first is whole.</summary>
    public static HashSet<(string First, string Then)> Necessary(OperationNet net, IReadOnlySet<string> among)
    {
        var all = OperationSet.Of(net.Operations.Count, Enumerable.Range(0, net.Operations.Count));
        var pairs = new HashSet<(string, string)>();
        foreach (var things in net.Operations.GroupBy(operation => operation.Target).Where(things => among.Contains(things.Key)))
        {
            var reached = net.Supported(things.Aggregate(all, (left, operation) => left.Without(operation.Index)));
            pairs.UnionWith(net.Operations.GroupBy(operation => operation.Target)
                .Where(other => other.Key != things.Key && among.Contains(other.Key) && !other.Any(operation => reached.Contains(operation.Index)))
                .Select(other => (things.Key, other.Key)));
        }

        return pairs;
    }

    private static IEnumerable<(OperationKind, string)> Named(OperationNet net, IEnumerable<int> order) =>
        order.Select(operation => (net.Operations[operation].Kind, net.Operations[operation].Target));

    /// <summary>The first thing of an order that cannot be done when its turn comes; null when all can.</summary>
    private static string? FirstFault(OperationNet net, IEnumerable<(OperationKind Kind, string Target)> order)
    {
        var done = net.Nothing;
        foreach (var (kind, target) in order)
        {
            if (!net.TryFind(kind, target, out var operation) || !net.CanDo(done, operation))
            {
                return target;
            }

            done = done.With(operation);
        }

        return null;
    }
}
