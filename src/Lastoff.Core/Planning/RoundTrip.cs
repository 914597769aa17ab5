using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>The planner's problem without names: operations with several ways each, to be done on the way out and reversed on the way back.</summary>
/// <remarks>
/// Find a set of operations that contains the start and meets every goal, an order to do the rest of it, and an order to reverse all of it,
/// so that work and set-ups together cost least. Costs are whole ticks of a thousandth of a minute, so that equal plans compare equal everywhere.
/// </remarks>
/// <param name="Ways">For every operation its ways; at least one.</param>
/// <param name="Goals">Every set must have at least one of its operations done.</param>
/// <param name="Start">What is done already.</param>
/// <param name="SetUp">Ticks to change from one key (tool in hand and place) to another.</param>
/// <param name="StartKey">The key in hand at the start of the way out, and again at the start of the way back.</param>
public sealed record RoundTrip(
    IReadOnlyList<IReadOnlyList<TripWay>> Ways,
    IReadOnlyList<OperationSet> Goals,
    OperationSet Start,
    long[,] SetUp,
    int StartKey)
{
    /// <summary>Ticks to change keys on the way back; null when they are those of the way out.</summary>
    public long[,]? BackSetUp { get; init; }

    public IReadOnlyList<TripPair> Pairs { get; init; } = [];

    /// <summary>Waits that need nobody: a drain that runs, sealant that cures. Other work goes on meanwhile; what is left of them is waited for.</summary>
    public IReadOnlyList<TripLag> Lags { get; init; } = [];

    /// <summary>What the set-ups consist of, when that is known: their ticks add up to <see cref="SetUp"/>, out and back.</summary>
    public IReadOnlyList<SetUpPart> SetUpParts { get; init; } = [];

    /// <summary>The same with some ways of an operation closed for good.</summary>
    /// <param name="isClosed">By the way's place.</param>
    public RoundTrip Closing(int operation, Func<int, bool> isClosed) => this with
    {
        Ways = [.. Ways.Select((ways, x) => x != operation ? ways : [.. ways.Select((way, at) => isClosed(at) ? way with { Needs = [Start.Except(Start)] } : way)])],
    };
}

/// <summary>One part of every set-up, such as the change of tool: it depends only on the class of the two keys.</summary>
/// <param name="ClassOf">For every key its class.</param>
/// <param name="Change">Ticks to change from one class to another.</param>
public sealed record SetUpPart(IReadOnlyList<int> ClassOf, long[,] Change);

/// <param name="Needs">Every set must have at least one of its operations done; with an empty set among them the way is closed for good.</param>
/// <param name="Out">Ticks of work on the way out.</param>
/// <param name="Back">Ticks of work to reverse it.</param>
public sealed record TripWay(IReadOnlyList<OperationSet> Needs, long Out, long Back, int Key)
{
    /// <summary>Ticks of <see cref="Back"/> that come some time later on the way back, such as a proof: nothing waits for them, and no wait is shortened by them.</summary>
    public long Owed { get; init; }
}

/// <summary>Two operations on one thing: laying a part aside, and taking it off.</summary>
/// <remarks>The first cannot be done once the second is done, nor reversed before it is.</remarks>
/// <param name="SharedOut">Ticks in the work out of both which are owed only once when both are done.</param>
/// <param name="SharedBack">The same for the work back.</param>
public sealed record TripPair(int First, int Then, long SharedOut, long SharedBack)
{
    /// <summary>Ticks of <see cref="SharedBack"/> that come later.</summary>
    public long SharedOwed { get; init; }
}

/// <summary>A wait between two operations, one of which every way of the other needs.</summary>
/// <param name="Before">The operation that is needed.</param>
/// <param name="Then">The operation that needs it.</param>
/// <param name="Out">On the way out <paramref name="Then"/> begins at least this many ticks after <paramref name="Before"/> has ended.</param>
/// <param name="Back">On the way back <paramref name="Before"/> is reversed at least this many ticks after <paramref name="Then"/> has been.</param>
public sealed record TripLag(int Before, int Then, long Out, long Back);

/// <param name="Wait">Ticks that nothing can be done before this step, because something still runs by itself.</param>
public readonly record struct TripStep(int Operation, int Way, long SetUp, long Work, long Wait = 0);

/// <param name="LowerBound">No trip for the same problem costs less.</param>
/// <param name="Unproven">Why the search stopped before a proof, or null when <paramref name="Cost"/> is proven least.</param>
public sealed record Trip(IReadOnlyList<TripStep> Out, IReadOnlyList<TripStep> Back, long Cost, long LowerBound, string? Unproven);
