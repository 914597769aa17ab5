using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>The way back in after a proof that did not come out well: what can come undone now, and what it may lie at first.</summary>
public static class BackIn
{
    /// <summary>The moves out that nothing is in the way of: what the proof is about, then what this job had its hands on, then the rest.</summary>
    public static IReadOnlyList<Moved> Of(Standing standing, Proof proof) =>
    [
        .. from moved in PossibleActs.Of(standing).OfType<Moved>()
           where !moved.Move.IsBack()
           let operation = standing.Net.Operations[standing.Net.Find(moved.Move.Operation(), moved.Target)]
           orderby ProofNeeds.IsUndoneBy(standing.Net, proof, operation) descending, standing.Disturbed.Contains(operation.Index) descending
           select moved,
    ];
}
