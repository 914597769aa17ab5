using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>What runs by itself while a plan is worked off: which of it a step has to wait for.</summary>
/// <param name="outward">Whether it is the way out; on the way back what was made cures.</param>
internal sealed class Running(OperationNet net, bool outward)
{
    private readonly IReadOnlyList<TripLag> _lags = MapTrip.Lags(net);
    private readonly Dictionary<int, long> _ended = [];
    private long _now;

    /// <summary>What a supply does by itself once it is made safe by hand: it drains, cools, runs down.</summary>
    public static string Verb(SupplyKind kind) => kind switch
    {
        SupplyKind.Coolant or SupplyKind.Oil => "drains",
        SupplyKind.Heat => "cools",
        _ => "runs down",
    };

    /// <summary>"Coolant still drains", of what was made safe or, on the way back, made.</summary>
    public static string Words(OperationNet net, Operation running) =>
        running.Kind == OperationKind.MakeSafe ? $"{running.Name} still {Verb(net.Supplies[running.Target].Kind)}" : $"{running.Name} still cures";

    /// <summary>Counts a step, and says what the wait before it is for; null when there is none.</summary>
    public string? Count(TripStep step)
    {
        var awaited = step.Wait > 0
            ? _lags.Where(lag => Of(lag).Then == step.Operation && _ended.ContainsKey(Of(lag).Before))
                .OrderByDescending(lag => _ended[Of(lag).Before] + Of(lag).Ticks).FirstOrDefault()
            : null;
        _now += step.SetUp + step.Wait + step.Work;
        _ended[step.Operation] = _now;
        return awaited is null ? null : Words(net, net.Operations[Of(awaited).Before]);
    }

    private (int Before, int Then, long Ticks) Of(TripLag lag) => outward ? (lag.Before, lag.Then, lag.Out) : (lag.Then, lag.Before, lag.Back);
}
