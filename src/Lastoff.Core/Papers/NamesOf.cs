using Lastoff.Core.Maps;

namespace Lastoff.Core.Papers;

/// <summary>What things are called on paper. An entry may name something the map does not have; it is then called as the entry calls it.</summary>
public static class NamesOf
{
    /// <summary>“Bracket bolts”, “Water pump”, at the start of a line.</summary>
    public static string Thing(OperationNet net, string id) => Capital(
        net.Parts.TryGetValue(id, out var part) ? part.Name
        : net.Joints.TryGetValue(id, out var joint) ? joint.Name
        : net.Supplies.TryGetValue(id, out var supply) ? supply.Name
        : net.Openings.TryGetValue(id, out var opening) ? opening.Name
        : net.Proofs.TryGetValue(id, out var proof) ? proof.Name
        : net.RenewalNamed(id) is { } renewal ? net.NameOf(renewal)
        : id);

    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];
}
