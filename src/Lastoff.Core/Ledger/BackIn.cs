using System.Text.Json.Nodes;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>A proof did not come out well, and where it fails is opened again. It is the same work that was agreed, and wants no other yes.</summary>
/// <param name="Joint">What is to come undone.</param>
public sealed record BackIn(string Joint, string Proof) : Act
{
    public override string Kind => ActKinds.BackIn;

    public override JsonObject ToData() => new() { ["joint"] = Joint, ["proof"] = Proof };

    /// <summary>Where it may fail: the joints that are done up, what the proof is about first, then what this job had its hands on, then the rest.</summary>
    public static IReadOnlyList<Joint> Places(Standing standing, Proof proof) =>
    [
        .. from joint in standing.Net.Map.Joints
           where !standing.IsDone(OperationKind.Undo, joint.Id)
           orderby IsAbout(proof, joint) descending, WasInHand(standing, joint) descending
           select joint,
    ];

    public static bool WasInHand(Standing standing, Joint joint) => standing.WasDisturbed(OperationKind.Undo, joint.Id);

    public static bool IsAbout(Proof proof, Joint joint) => joint.Id == proof.For || joint.Holds.Contains(proof.For) || joint.Needs.Contains(proof.For);

    internal static Refusal? Check(Standing standing, BackIn back) =>
        !standing.Net.Joints.TryGetValue(back.Joint, out var joint) ? Guards.Unknown("joint", back.Joint)
        : !standing.Net.Proofs.ContainsKey(back.Proof) ? Guards.Unknown("proof", back.Proof)
        : standing.IsDone(OperationKind.Undo, back.Joint) ? new Refusal(RefusalKind.Already, $"“{joint.Name}” is undone already.")
        : null;
}
