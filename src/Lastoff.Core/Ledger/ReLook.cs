using System.Text.Json.Nodes;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>A tightened joint was looked at a second time.</summary>
public sealed record ReLookTaken(string Joint) : Act
{
    public override string Kind => ActKinds.ReLook;

    public override JsonObject ToData() => new() { ["joint"] = Joint };
}

/// <summary>A second look at a tightened joint. Taken by the one who tightened it, it is a re-look and nothing more.</summary>
/// <param name="TightenedBy">Whoever is on record as having tightened or made it.</param>
public sealed record ReLook(string By, IReadOnlyList<string> TightenedBy)
{
    public bool IsBySamePerson => TightenedBy.Any(name => IsSame(name, By));

    /// <summary>What the record says of it, with the joint's name.</summary>
    public string Sentence(string joint) =>
        IsBySamePerson ? $"“{joint}” was looked at again by {By}, who had a hand in tightening it: a re-look, not an independent inspection."
        : TightenedBy.Count == 0 ? $"“{joint}” was looked at again by {By}; who tightened it is not on record."
        : $"“{joint}” was tightened by {string.Join(" and ", TightenedBy)} and looked at again by another person, {By}.";

    /// <summary>The joints tightened in passes, made, and not looked at since, that can be got at.</summary>
    public static IEnumerable<Joint> Owed(Standing standing) => standing.Net.Map.Joints.Where(joint =>
        joint.Passes.Count > 0
        && standing.WasDisturbed(OperationKind.Undo, joint.Id)
        && !standing.IsDone(OperationKind.Undo, joint.Id)
        && !standing.Looked.Contains(joint.Id)
        && InTheWay.Covering(standing, joint.Id).Count == 0);

    internal static bool IsSame(string one, string other) => one.Trim().Equals(other.Trim(), StringComparison.OrdinalIgnoreCase);
}
