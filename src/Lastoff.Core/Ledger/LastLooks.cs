using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>Which joints have to be looked at now because the next part on hides them. Derived from reach, never typed in.</summary>
public static class LastLooks
{
    /// <summary>The joints of this job, made but not looked at since, that reversing the operation would hide.</summary>
    public static IEnumerable<Joint> Owed(Standing standing, int operation) =>
        standing.Net.HiddenBy(standing.Done, operation)
            .Where(joint => standing.WasDisturbed(OperationKind.Undo, joint.Id) && !standing.Looked.Contains(joint.Id));
}
