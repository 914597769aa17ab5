using Lastoff.Core.Joints;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.App.Words;

/// <summary>How the passes of a joint are said on the screen.</summary>
public static class PassWords
{
    /// <summary>A pass or a bolt of it that was done: "Head bolts: pass 2 of 4, bolt 3".</summary>
    public static string Done(OperationNet net, JointTightened act)
    {
        if (!net.Joints.TryGetValue(act.Joint, out var joint) || act.Pass > joint.Passes.Count)
        {
            return $"{act.Joint}: pass {act.Pass}";
        }

        var at = act.Bolt is { } bolt ? $", bolt {Place(joint, joint.Passes[act.Pass - 1], bolt)}" : "";
        return $"{joint.Name}: pass {act.Pass} of {joint.Passes.Count}{at}";
    }

    /// <summary>The place of a bolt in the order of a pass, from 1: the number that the picture shows.</summary>
    public static int Place(Joint joint, Pass pass, string bolt) => pass.Order.ToList().IndexOf(joint.Bolts.ToList().IndexOf(bolt)) + 1;

    /// <summary>What is turned now, large: "20 N·m", "90°", "Snug".</summary>
    public static string Target(PassAtHand at, TorqueUnit unit) => at.Pass.Kind switch
    {
        PassKind.Snug => "Snug",
        PassKind.Angle => at.Pass.Short,
        _ => at.Torque!.Value.Text(unit),
    };

    /// <summary>What to mind in it.</summary>
    public static string Hint(Pass pass) => pass.Kind switch
    {
        PassKind.Snug => "By hand first, then just snug.",
        PassKind.Angle => "Further, from where it stands. Mark it before you turn.",
        PassKind.OnceRound => "Until none moves any more.",
        _ => $"{pass.Short} of the full torque.",
    };
}
