namespace Lastoff.Core.Planning.TwoHands;

/// <summary>What two people do out and back, on one time line; both ways are timed from the start of the whole job.</summary>
public sealed record HandsPlan
{
    /// <summary>In the order in which the steps begin.</summary>
    public required IReadOnlyList<TimedStep> Out { get; init; }
    public required IReadOnlyList<TimedStep> Back { get; init; }
    /// <summary>From the first step to the last, in typical minutes. This is what the planner makes least.</summary>
    public required double MakespanMinutes { get; init; }
    /// <summary>No two people take less.</summary>
    public required double LowerBoundMinutes { get; init; }
    public required bool ProvenOptimal { get; init; }
    /// <summary>Why the search stopped before a proof, in one sentence; null when it did not.</summary>
    public string? Unproven { get; init; }
    /// <summary>What both work, set-ups included, waiting for each other not.</summary>
    public required double PersonMinutes { get; init; }
    /// <summary>What one person alone takes, by the same rules.</summary>
    public required double OnePersonMinutes { get; init; }
    /// <summary>What is new, last looks, tools and places: as in the plan of one person.</summary>
    public required Plan Whole { get; init; }
}

/// <param name="Who">1 or 2.</param>
/// <param name="StartMinutes">When its set-up begins; its work ends at <paramref name="EndMinutes"/>.</param>
public sealed record TimedStep(PlanStep Step, int Who, double StartMinutes, double EndMinutes);
