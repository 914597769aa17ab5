using Lastoff.Core.Planning;

namespace Lastoff.Core.Estimating;

/// <summary>A step of a job and what it took.</summary>
/// <param name="Target">The part, joint, supply, opening or proof.</param>
public sealed record TimedStep(StepKind Kind, string Target, TimedWork Took)
{
    /// <summary>How many minutes more than the map says.</summary>
    public double Over => Took.Minutes - Took.Work.TradeMinutes;
}
