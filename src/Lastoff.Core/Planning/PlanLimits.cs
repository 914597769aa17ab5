namespace Lastoff.Core.Planning;

/// <summary>How far the planner may go: a number of states kept, so that memory is bounded and the same input gives the same plan on every machine.</summary>
public sealed record PlanLimits(int States)
{
    /// <summary>Answers while the screen is being touched.</summary>
    public static PlanLimits Quick { get; } = new(20_000);

    public static PlanLimits Usual { get; } = new(200_000);
}
