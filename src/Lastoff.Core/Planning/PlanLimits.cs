namespace Lastoff.Core.Planning;

/// <summary>How far the planner may go: a number of states kept, so that memory is bounded and the same input gives the same plan on every machine.</summary>
public sealed record PlanLimits(int States)
{
    /// <summary>For a device that searches some fifty times slower than a desk: a search only where it is as quick as the first good plan.</summary>
    public static PlanLimits AtOnce { get; } = new(300) { IsAtOnce = true };

    /// <summary>Answers while the screen is being touched.</summary>
    public static PlanLimits Quick { get; } = new(20_000);

    public static PlanLimits Usual { get; } = new(200_000);

    /// <summary>As many states as a desk has room for.</summary>
    public static PlanLimits Far { get; } = new(2_500_000);

    /// <summary>Ends a search early with the best plan it has by then; the same input then need not give the same plan.</summary>
    public CancellationToken Enough { get; init; }

    /// <summary>The first good plan will do.</summary>
    internal bool IsAtOnce { get; private init; }
}
