using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>A part or joint that was off when it was got to: nobody here took it off, and it has to go home all the same.</summary>
public static class FoundOff
{
    /// <summary>Whether by the record it is still where it belongs.</summary>
    public static bool CanBe(Standing standing, string target) =>
        standing.Net.Parts.ContainsKey(target) ? standing.StateOf(target) is not (PartState.Aside or PartState.Off)
        : standing.Net.Joints.ContainsKey(target) && !standing.IsDone(OperationKind.Undo, target);

    /// <summary>The moves that say so. A part that is off is held by nothing, so what the map has hold it is undone as well.</summary>
    /// <param name="why">What was found, as it stands on the record.</param>
    public static IEnumerable<Moved> Acts(Standing standing, string target, string why)
    {
        var net = standing.Net;
        if (net.Joints.ContainsKey(target))
        {
            return [new Moved(Move.JointUndone, target) { Despite = why }];
        }

        return
        [
            .. net.JointsOf[target].Where(joint => !standing.IsDone(OperationKind.Undo, joint.Id)).Select(joint => new Moved(Move.JointUndone, joint.Id) { Despite = why }),
            new Moved(Move.PartOff, target) { Despite = why },
        ];
    }
}
