using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>What of a job's goal is still ahead.</summary>
public static class GoalLeft
{
    /// <summary>The goal to plan for: what has not been reached, and what is reached but not yet renewed and closed.</summary>
    public static Goal Of(Standing standing) => new(
        [.. standing.GoalParts.Where(p => IsOff(standing, p) || !IsRenewed(standing, p)).Order(StringComparer.Ordinal)],
        [.. standing.GoalJoints.Where(j => standing.IsOpen(j) || !standing.WasOpen(j)).Union(standing.ToUndoAgain).Order(StringComparer.Ordinal)]);

    /// <summary>Whether the way out still goes on.</summary>
    public static bool IsAhead(Standing standing) =>
        standing.GoalParts.Any(part => IsAhead(standing, part))
        || standing.GoalJoints.Any(j => !standing.WasOpen(j))
        || standing.ToUndoAgain.Count > 0;

    /// <summary>Whether a part of the goal has still to come off.</summary>
    public static bool IsAhead(Standing standing, string part) => !IsOff(standing, part) && !IsRenewed(standing, part);

    private static bool IsRenewed(Standing standing, string part) =>
        standing.WasDisturbed(OperationKind.Off, part) && standing.Renewed.Contains(standing.Net.NewPart(part).Id);

    private static bool IsOff(Standing standing, string part) => standing.IsDone(OperationKind.Off, part);
}
