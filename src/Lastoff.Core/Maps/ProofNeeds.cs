namespace Lastoff.Core.Maps;

/// <summary>What must be back before a proof says anything: what it is for, what holds the pressure in, or, when the machine has to run, everything.</summary>
public static class ProofNeeds
{
    /// <summary>The operations, out of those undone, that the proof waits for.</summary>
    public static OperationSet Of(OperationNet net, Proof proof, OperationSet undone)
    {
        if (NeedsTheWholeMachine(proof))
        {
            return undone;
        }

        if (IsTakenEmpty(net, proof))
        {
            return Sealing(net, proof.For).Intersect(undone);
        }

        // A joint is tightened dry, but a leak shows only when what it holds in is back.
        var own = OperationSet.Of(net.Operations.Count, Disturbed(net, proof));
        return (proof.Kind == ProofKind.TorquePasses ? own : own.Union(Supplies(net, proof.For))).Intersect(undone);
    }

    public static bool NeedsTheWholeMachine(Proof proof) => proof.WhenItRuns || proof.Kind is ProofKind.WarmUp or ProofKind.Function;

    /// <summary>Whether it is taken while the supply it is for is still empty: a vacuum shows what leaks before anything is filled.</summary>
    public static bool IsTakenEmpty(OperationNet net, Proof proof) => proof.Kind == ProofKind.VacuumHold && net.Supplies.ContainsKey(proof.For);

    /// <summary>Whether undoing this makes the proof say nothing any more.</summary>
    public static bool IsUndoneBy(OperationNet net, Proof proof, Operation operation) =>
        operation.Target == proof.For || (IsTakenEmpty(net, proof) && Sealing(net, proof.For).Contains(operation.Index));

    /// <summary>The operations that make the proof owed.</summary>
    public static IEnumerable<int> Disturbed(OperationNet net, Proof proof)
    {
        foreach (var kind in Enum.GetValues<OperationKind>())
        {
            if (net.TryFind(kind, proof.For, out var operation))
            {
                yield return operation;
            }
        }
    }

    /// <summary>The joints and parts that hold a supply in.</summary>
    private static OperationSet Sealing(OperationNet net, string supply) => OperationSet.Of(
        net.Operations.Count,
        net.Map.Joints.Where(joint => joint.Needs.Contains(supply)).Select(joint => net.Find(OperationKind.Undo, joint.Id))
            .Concat(net.Map.Parts.Where(part => part.Needs.Contains(supply)).Select(part => net.Find(OperationKind.Off, part.Id))));

    private static OperationSet Supplies(OperationNet net, string target)
    {
        var found = net.Nothing;
        var waiting = new Queue<string>(
            net.Joints.TryGetValue(target, out var joint) ? joint.Needs
            : net.Parts.ContainsKey(target) ? net.JointsOf[target].SelectMany(j => j.Needs).Concat(net.Parts[target].Needs)
            : net.Supplies[target].Needs);
        while (waiting.TryDequeue(out var supply))
        {
            var operation = net.Find(OperationKind.MakeSafe, supply);
            if (!found.Contains(operation))
            {
                found = found.With(operation);
                foreach (var deeper in net.Supplies[supply].Needs)
                {
                    waiting.Enqueue(deeper);
                }
            }
        }

        return found;
    }
}
