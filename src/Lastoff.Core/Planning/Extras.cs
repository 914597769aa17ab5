using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>Another part, renewed while the machine is open: what it takes as a job of its own, and what it adds to this strip.</summary>
public sealed record Extra(string Part, string Name, double MinutesAlone, double MinutesInStrip)
{
    public double MinutesSaved => MinutesAlone - MinutesInStrip;
}

/// <summary>The extras, or why there are none.</summary>
public sealed record ExtrasResult(IReadOnlyList<Extra>? Extras, string? Refusal);

/// <summary>What other parts could be renewed while the machine is open, all of them at once.</summary>
/// <remarks>
/// Every part gets the same effort, alone and in the strip: the least work that still stands in its way is found by a short search, and each
/// operation of it goes where it costs least in the order at hand. So a saving is the strip's doing and not the luck of a search.
/// </remarks>
public static class Extras
{
    private const int StatesEach = 200;

    /// <summary>The other parts of the map, the largest saving first; or the one sentence that says why there are none.</summary>
    /// <param name="done">What is undone already.</param>
    /// <param name="stuck">What was found at joints that would not come undone; null for nothing.</param>
    /// <exception cref="OperationCanceledException">The planning was called off.</exception>
    public static ExtrasResult Of(OperationNet net, Goal goal, OperationSet done, PlanLimits limits, CancellationToken ct = default, IReadOnlyList<JointStuck>? stuck = null)
    {
        var (trip, refusal) = Planner.Solve(net, goal, done, stuck ?? [], limits, ct);
        return new ExtrasResult(trip is null ? null : Of(net, goal, done, stuck ?? [], trip, ct), refusal);
    }

    /// <summary>Waits are left out: what runs by itself runs for the strip at hand anyway, and alone it can be waited for with other jobs.</summary>
    private static RoundTrip Unhindered(OperationNet net, OperationSet done, IReadOnlyList<JointStuck> stuck) => MapTrip.Of(net, [], done, stuck) with { Lags = [] };

    /// <param name="strip">The trip at hand for this goal, from what is done.</param>
    internal static IReadOnlyList<Extra> Of(OperationNet net, Goal goal, OperationSet done, IReadOnlyList<JointStuck> stuck, Trip strip, CancellationToken ct)
    {
        var extras = new List<Extra>();
        var fromWhole = new StripOrder(Unhindered(net, net.Nothing, stuck), [], []);
        var inStrip = new StripOrder(
            Unhindered(net, done, stuck),
            [.. strip.Out.Select(step => new OneWayStep(step.Operation, step.Way))],
            [.. strip.Back.Reverse().Select(step => new OneWayStep(step.Operation, step.Way))]);
        foreach (var part in net.Map.Parts.Where(part => !goal.Off.Contains(part.Id)))
        {
            var off = net.Find(OperationKind.Off, part.Id);
            if (fromWhole.TicksToAdd(off, StatesEach, ct) is { } alone && inStrip.TicksToAdd(off, StatesEach, ct) is { } more)
            {
                // To do it afterwards, as a job of its own, is always open.
                extras.Add(new Extra(part.Id, part.Name, alone / MapTrip.TicksPerMinute, Math.Min(alone, more) / MapTrip.TicksPerMinute));
            }
        }

        return [.. extras.OrderByDescending(extra => extra.MinutesSaved).ThenBy(extra => extra.Part, StringComparer.Ordinal)];
    }
}
