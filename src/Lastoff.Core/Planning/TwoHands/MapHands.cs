using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning.TwoHands;

/// <summary>A map's operations as a problem for two people.</summary>
public static class MapHands
{
    /// <param name="trip">The same job for one person.</param>
    public static HandsProblem Of(OperationNet net, RoundTrip trip)
    {
        var map = net.Map;
        List<Tool> tools = [Tool.Hand, .. net.Operations.SelectMany(operation => operation.Ways).Select(way => way.Tool).Where(tool => !tool.IsHand).Distinct()];
        var holds = new Hold[trip.SetUp.GetLength(0)];
        holds[trip.StartKey] = new Hold(Hold.BareHand, Position.Front);
        foreach (var operation in net.Operations)
        {
            foreach (var (way, compiled) in operation.Ways.Zip(trip.Ways[operation.Index]))
            {
                holds[compiled.Key] = new Hold(tools.IndexOf(way.Tool), way.At);
            }
        }

        var setUp = new HandsSetUp(MapTrip.Ticks(map.SetUp.Tool), MapTrip.Ticks(map.SetUp.Position), MapTrip.Ticks(map.SetUp.Lift));
        return new HandsProblem(trip, holds, setUp, new Collisions(map.Collide)) { Proofs = [.. map.Proofs.Select(proof => Proof(net, proof))] };
    }

    private static HandsProof Proof(OperationNet net, Proof proof)
    {
        var everything = OperationSet.Of(net.Operations.Count, Enumerable.Range(0, net.Operations.Count));
        return new HandsProof(
            OperationSet.Of(net.Operations.Count, ProofNeeds.Disturbed(net, proof)),
            ProofNeeds.Of(net, proof, everything),
            ProofNeeds.NeedsTheWholeMachine(proof),
            MapTrip.Ticks(proof.Minutes),
            ProofNeeds.IsTakenEmpty(net, proof) ? OperationSet.Of(net.Operations.Count, ProofNeeds.Disturbed(net, proof)) : OperationSet.Empty(net.Operations.Count));
    }
}
