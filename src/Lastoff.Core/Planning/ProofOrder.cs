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
            .Select(proof => (proof, Awaits(proof, undone)))
            .Where(owed => owed.Item2.Count > 0)
            .OrderBy(owed => NeedsTheWholeMachine(owed.proof))];
    }

    /// <summary>The proofs that can be taken now and could not before; each is returned once.</summary>
    public IReadOnlyList<Proof> DueWith(OperationSet undone)
    {
        List<Proof> due = [.. _owed.Where(owed => !owed.Awaits.Overlaps(undone)).Select(owed => owed.Proof)];
        _owed.RemoveAll(owed => !owed.Awaits.Overlaps(undone));
        return due;
    }

    public string NameOfTarget(Proof proof) => Disturbed(proof).Select(operation => _net.Operations[operation].Name).First();

    private OperationSet Awaits(Proof proof, OperationSet undone)
    {
        var own = OperationSet.Of(_net.Operations.Count, Disturbed(proof)).Intersect(undone);
        if (own.Count == 0)
        {
            return own;
        }

        if (NeedsTheWholeMachine(proof))
        {
            return undone;
        }

        // A joint is tightened dry, but a leak shows only when what it holds in is back.
        return proof.Kind == ProofKind.TorquePasses ? own : own.Union(Supplies(proof.For).Intersect(undone));
    }

    private IEnumerable<int> Disturbed(Proof proof)
    {
        foreach (var kind in Enum.GetValues<OperationKind>())
        {
            if (_net.TryFind(kind, proof.For, out var operation))
            {
                yield return operation;
            }
        }
    }

    private OperationSet Supplies(string target)
    {
        var found = _net.Nothing;
        var waiting = new Queue<string>(
            _net.Joints.TryGetValue(target, out var joint) ? joint.Needs
            : _net.Parts.ContainsKey(target) ? _net.JointsOf[target].SelectMany(j => j.Needs)
            : _net.Supplies[target].Needs);
        while (waiting.TryDequeue(out var supply))
        {
            var operation = _net.Find(OperationKind.MakeSafe, supply);
            if (!found.Contains(operation))
            {
                found = found.With(operation);
                foreach (var deeper in _net.Supplies[supply].Needs)
                {
                    waiting.Enqueue(deeper);
                }
            }
        }

        return found;
    }

    private static bool NeedsTheWholeMachine(Proof proof) => proof.Kind is ProofKind.WarmUp or ProofKind.Function;
}
