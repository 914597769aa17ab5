using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>When each proof of a job can be taken: as soon as what it is for is back and filled, or, when the machine has to run for it, at the very end.</summary>
internal sealed class ProofOrder
{
    private readonly OperationNet _net;
    private readonly List<(Proof Proof, OperationSet Awaits)> _owed;

    public ProofOrder(OperationNet net, OperationSet undone)
    {
        _net = net;
        _owed = [.. net.Map.Proofs
            .Where(proof => ProofNeeds.Disturbed(net, proof).Any(undone.Contains))
            .OrderBy(ProofNeeds.NeedsTheWholeMachine)
            .Select(proof => (proof, ProofNeeds.Of(net, proof, undone)))];
    }

    /// <summary>The proofs that can be taken now and could not before; each is returned once.</summary>
    public IReadOnlyList<Proof> DueWith(OperationSet undone)
    {
        List<Proof> due = [.. _owed.Where(owed => !owed.Awaits.Overlaps(undone)).Select(owed => owed.Proof)];
        _owed.RemoveAll(owed => !owed.Awaits.Overlaps(undone));
        return due;
    }

    public string NameOfTarget(Proof proof) => _net.Operations[ProofNeeds.Disturbed(_net, proof).First()].Name;
}
