using System.Globalization;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>What an act says is so of one thing: two acts about it can contradict each other.</summary>
/// <param name="About">Kind and identifier of the thing.</param>
/// <param name="Says">How it is, as said of it: "undone", "good", "restored with 5.7 L".</param>
internal readonly record struct Claim((string Kind, string Target) About, string Says)
{
    /// <summary>Null for an act that says nothing a second person could say otherwise.</summary>
    public static Claim? Of(Act act) => act switch
    {
        Moved { Move: Move.SupplyRestored, Amount_L: { } litres } moved => new(ThingOf(moved), string.Create(CultureInfo.InvariantCulture, $"restored with {litres:0.##} L")),
        Moved { Move: Move.PartHome or Move.PartFitted } moved => new(ThingOf(moved), "back in place"),
        Moved moved => new(ThingOf(moved), moved.Move.Done()),
        JointStuck { IsClosed: true } stuck => new(("joint", stuck.Joint), "not to be undone"),
        OpeningCovered covered => new(("opening", covered.Opening), "covered"),
        OpeningUncovered uncovered => new(("opening", uncovered.Opening), "uncovered"),
        JointTightened tightened => new(("pass", $"{tightened.Joint} {tightened.Pass}"), Tightness(tightened)),
        ProofRecorded proof => new(("proof", proof.Proof), ActKinds.Word(proof.Verdict)),
        Agreed { Price: { } price } agreed => new(("yes", ""), $"“{agreed.What}” for {price.Total}"),
        Agreed agreed => new(("yes", ""), $"“{agreed.What}”"),
        Settled settled => new(("question", settled.Entry.ToString()), $"“{settled.How}”"),
        _ => null,
    };

    /// <summary>The thing, as it begins a sentence.</summary>
    public string Name(OperationNet net) => About.Kind switch
    {
        "opening" => $"“{net.Openings[About.Target].Name}”",
        "proof" => $"“{net.Proofs[About.Target].Name}”",
        "pass" when About.Target.Split(' ') is [var joint, var pass] => $"Pass {pass} of “{net.Joints[joint].Name}”",
        "yes" => "What was agreed",
        "question" => "What was in question",
        _ => $"“{Guards.NameOf(net, About.Target)}”",
    };

    private static (string, string) ThingOf(Moved moved) => (ActKinds.TargetName(moved.Move), moved.Target);

    private static string Tightness(JointTightened tightened) => string.Create(
        CultureInfo.InvariantCulture,
        $"tightened{(tightened.Torque_Nm is { } torque ? $" to {torque:0.##} N·m" : "")}{(tightened.Angle_deg is { } angle ? $" by {angle:0.#}°" : "")}");
}
