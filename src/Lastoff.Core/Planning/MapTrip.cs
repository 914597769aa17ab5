using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>A map's operations as a round trip: minutes become ticks, and each tool at each place becomes a key.</summary>
/// <remarks>
/// An opening is covered by whoever lays it bare, so its cover counts with that operation, out and back. A proof counts with the operation
/// that makes it owed. What may go wrong counts on the way out only, with its chance times its minutes. A part that was laid aside and then taken off is covered and proved once.
/// </remarks>
public sealed class MapTrip
{
    public const double TicksPerMinute = 1000;

    private readonly OperationNet _net;
    private readonly IReadOnlyList<JointStuck> _stuck;
    private readonly List<(Tool Tool, Position At)> _keys = [(Tool.Hand, Position.Front)];

    private MapTrip(OperationNet net, IReadOnlyList<JointStuck> stuck) => (_net, _stuck) = (net, stuck);

    /// <param name="stuck">What was found at joints that are still made: more minutes, or a way that is closed.</param>
    public static RoundTrip Of(OperationNet net, IReadOnlyList<OperationSet> goals, OperationSet done, IReadOnlyList<JointStuck>? stuck = null)
    {
        var trip = new MapTrip(net, stuck ?? []);
        var ways = net.Operations.Select(trip.Ways).ToList();
        SetUpPart[] parts = [trip.ToolChanges(), trip.PlaceChanges()];
        return new RoundTrip(ways, goals, done, trip.Sum(parts), 0) { Pairs = [.. trip.Pairs()], Lags = Lags(net), SetUpParts = parts };
    }

    /// <summary>What runs by itself: a supply on the way out before what needs it, a joint on the way back before a supply that it needs.</summary>
    public static IReadOnlyList<TripLag> Lags(OperationNet net) =>
    [
        .. from operation in net.Operations
           from need in operation.Ways[0].First
           where need.Count == 1 && operation.Ways.All(way => way.First.Contains(need))
           let needed = net.Operations[need.First()]
           where needed.Kind == OperationKind.MakeSafe
           let runs = net.Supplies[needed.Target].RunsMinutes
           let cures = operation.Kind == OperationKind.Undo ? net.Joints[operation.Target].CuresMinutes : 0
           where runs > 0 || cures > 0
           select new TripLag(needed.Index, operation.Index, Ticks(runs), Ticks(cures)),
    ];

    /// <summary>What may go wrong this way, weighted by its chance.</summary>
    public static long RiskTicks(Way way) => Ticks(way.Risk?.ExpectedMinutes ?? 0);

    public static long Ticks(double minutes) => (long)Math.Round(minutes * TicksPerMinute);

    /// <summary>The openings that an operation lays bare and its reverse closes, with this much undone besides: none when the part is laid aside as well, which is done before and reversed after.</summary>
    public static IReadOnlyList<Opening> Openings(OperationNet net, Operation operation, OperationSet undone) =>
        operation.Kind == OperationKind.Off && net.TryFind(OperationKind.Aside, operation.Target, out var aside) && undone.Contains(aside)
            ? []
            : net.OpeningsOn.GetValueOrDefault(operation.Target, []);

    public static IEnumerable<Proof> Proofs(OperationNet net, string target) => net.Map.Proofs.Where(proof => proof.For == target);

    private IReadOnlyList<TripWay> Ways(Operation operation)
    {
        var covers = CoverTicks(operation.Target);
        var proofs = ProofTicks(operation.Target);
        return [.. operation.Ways.Select(way => Stuck.About(_stuck, operation, way) is var found && found is { IsClosed: true }
            ? new TripWay([_net.Nothing], 0, 0, Key((way.Tool, way.At)))
            : new TripWay(
                [.. way.Needs],
                Ticks(operation.OutMinutes * way.Times) + Ticks(found?.ExtraMinutes ?? 0) + RiskTicks(way) + covers,
                Ticks(operation.BackMinutes * way.Times) + covers + proofs,
                Key((way.Tool, way.At)))
            {
                Owed = proofs,
            })];
    }

    private IEnumerable<TripPair> Pairs()
    {
        foreach (var part in _net.Map.Parts.Where(part => part.Aside is not null))
        {
            yield return new TripPair(_net.Find(OperationKind.Aside, part.Id), _net.Find(OperationKind.Off, part.Id), CoverTicks(part.Id), CoverTicks(part.Id) + ProofTicks(part.Id))
            {
                SharedOwed = ProofTicks(part.Id),
            };
        }
    }

    private long CoverTicks(string target) => _net.OpeningsOn.GetValueOrDefault(target, []).Sum(opening => Ticks(opening.CoverMinutes));

    private long ProofTicks(string target) => Proofs(_net, target).Sum(proof => Ticks(proof.Minutes));

    private int Key((Tool, Position) key)
    {
        var at = _keys.IndexOf(key);
        if (at < 0)
        {
            at = _keys.Count;
            _keys.Add(key);
        }

        return at;
    }

    private SetUpPart ToolChanges() => Part(key => key.Tool, _net.Map.SetUp.ToolChange);

    private SetUpPart PlaceChanges() => Part(key => key.At, _net.Map.SetUp.PlaceChange);

    private SetUpPart Part<T>(Func<(Tool Tool, Position At), T> classOf, Func<T, T, double> minutes)
    {
        List<T> classes = [.. _keys.Select(classOf).Distinct()];
        var change = new long[classes.Count, classes.Count];
        for (var a = 0; a < classes.Count; a++)
        {
            for (var b = 0; b < classes.Count; b++)
            {
                change[a, b] = Ticks(minutes(classes[a], classes[b]));
            }
        }

        return new SetUpPart([.. _keys.Select(key => classes.IndexOf(classOf(key)))], change);
    }

    private long[,] Sum(SetUpPart[] parts)
    {
        var setUp = new long[_keys.Count, _keys.Count];
        for (var a = 0; a < _keys.Count; a++)
        {
            for (var b = 0; b < _keys.Count; b++)
            {
                setUp[a, b] = parts.Sum(part => part.Change[part.ClassOf[a], part.ClassOf[b]]);
            }
        }

        return setUp;
    }
}
