using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>A part of all trips: those that do every operation of one set and none of another.</summary>
/// <param name="Bound">No such trip costs less.</param>
internal sealed record TripNode(OperationSet With, OperationSet Without, long Bound)
{
    /// <summary>Whether a good trip was looked for in it, or in the node it was split from.</summary>
    public bool IsLookedAt { get; init; }

    /// <summary>Whether its choices have been gone through.</summary>
    public bool IsSettled { get; init; }

    /// <summary>How many states the next visit may take: few at first, so that whenever the search ends each direction has been seen.</summary>
    public int States { get; init; } = 60_000;

    public TripNode Doing(int operation) => this with { With = With.With(operation) };

    public TripNode LeavingOut(int operation) => this with { Without = Without.With(operation) };
}
