using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>A part of all trips: those that do every operation of one set, none of another, and take none of the ways that are closed.</summary>
/// <param name="Closed">Ways that are not taken.</param>
/// <param name="Bound">No such trip costs less.</param>
internal sealed record TripNode(OperationSet With, OperationSet Without, IReadOnlyList<TripChoice> Closed, long Bound)
{
    /// <summary>Whether its choices have been gone through.</summary>
    public bool IsSettled { get; init; }

    public bool IsClosed(int operation, int way, bool isOut) => Closed.Contains(new TripChoice(operation, way, isOut));

    /// <summary>Those of these trips that do the operation, or take no other way of it.</summary>
    public TripNode Taking(TripChoice choice, RoundTrip trip) => choice.IsWay
        ? this with { Closed = [.. Closed, .. Enumerable.Range(0, trip.Ways[choice.Operation].Count).Where(way => way != choice.Way).Select(way => choice with { Way = way })] }
        : this with { With = With.With(choice.Operation) };

    /// <summary>The others.</summary>
    public TripNode Leaving(TripChoice choice) => choice.IsWay ? this with { Closed = [.. Closed, choice] } : this with { Without = Without.With(choice.Operation) };
}
