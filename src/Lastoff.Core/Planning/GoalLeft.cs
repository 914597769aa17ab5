using Lastoff.Core.Ledger;

namespace Lastoff.Core.Planning;

/// <summary>What of a job's goal is still ahead.</summary>
public static class GoalLeft
{
    /// <summary>The goal to plan for: what has not been reached, and what is reached but not yet renewed and closed.</summary>
    public static Goal Of(Standing standing) => new(
        [.. standing.GoalParts.Where(p => standing.IsOpen(p) || !IsRenewed(standing, p)).Order(StringComparer.Ordinal)],
        [.. standing.GoalJoints.Where(j => standing.IsOpen(j) || !standing.WasOpen(j)).Order(StringComparer.Ordinal)]);

    /// <summary>Whether the way out still goes on.</summary>
    public static bool IsAhead(Standing standing) =>
        standing.GoalParts.Any(p => !standing.IsOpen(p) && !IsRenewed(standing, p))
        || standing.GoalJoints.Any(j => !standing.WasOpen(j));

    private static bool IsRenewed(Standing standing, string part) =>
        standing.WasOpen(part) && standing.Renewed.Contains(standing.Net.NewPart(part).Id);
}
