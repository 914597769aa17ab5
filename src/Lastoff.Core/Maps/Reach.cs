namespace Lastoff.Core.Maps;

/// <summary>What must be out of the way before a joint or part can be got at.</summary>
/// <param name="Clear">Parts that must be off or aside, whichever way is taken.</param>
/// <param name="Off">Parts that must be off; aside is not enough.</param>
/// <param name="Either">Alternatives, one of which must hold; empty when there is only one way.</param>
public sealed record Reach(IReadOnlyList<string> Clear, IReadOnlyList<string> Off, IReadOnlyList<ReachWay> Either)
{
    public static Reach Free { get; } = new([], [], []);
}

/// <summary>One alternative of a reach: what it wants out of the way, from where, with which tool, and how much longer the work takes.</summary>
/// <param name="Times">Factor on the minutes of the work, at least 1 as a rule; "a long swivel and 3x the time".</param>
/// <param name="Risk">What may go wrong this way, in place of what the joint itself says; null when that holds.</param>
public sealed record ReachWay(
    IReadOnlyList<string> Clear,
    IReadOnlyList<string> Off,
    Position? At,
    Tool? With,
    double Times,
    int Line,
    Risk? Risk = null);
