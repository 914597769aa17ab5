using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>Puts a way back in the order that the map asks for where nothing forces another.</summary>
internal static class HomeOrder
{
    private const string Dearer = "what goes home in the order it came off, or last by custom, may cost more than the quickest order";

    /// <summary>The trip with what goes home later put behind all it comes after, wherever that is legal.</summary>
    public static Trip Of(OperationNet net, RoundTrip problem, Trip trip)
    {
        if (net.Map.Homeward.Count == 0)
        {
            return trip;
        }

        List<OneWayStep> back = [.. trip.Back.Select(step => new OneWayStep(step.Operation, step.Way))];
        var undone = OperationSet.Of(net.Operations.Count, back.Select(step => step.Operation));
        var free = undone.Except(net.Supported(undone));
        foreach (var later in net.Map.Homeward)
        {
            var at = back.FindIndex(step => net.Operations[step.Operation].Target == later.Target);
            var last = back.FindLastIndex(step => later.After.Contains(net.Operations[step.Operation].Target));
            if (at < 0 || last < at)
            {
                continue;
            }

            List<OneWayStep> moved = [.. back];
            moved.Insert(last + 1, back[at]);
            moved.RemoveAt(at);
            back = TripOrder.Back(problem, [.. Enumerable.Reverse(moved)], free) is null ? back : moved;
        }

        if (TripOrder.Back(problem, [.. Enumerable.Reverse(back)], free) is not { } steps)
        {
            return trip;
        }

        var cost = TripOrder.Cost(trip.Out) + TripOrder.Cost(steps);
        return trip with { Back = steps, Cost = cost, Unproven = cost > trip.Cost ? trip.Unproven ?? Dearer : trip.Unproven };
    }
}
