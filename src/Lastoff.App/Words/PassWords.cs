using Lastoff.Core.Joints;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Words;

/// <summary>How the passes of a joint are said on the screen.</summary>
public static class PassWords
{
    /// <summary>A pass or a bolt of it that was done, in English, as it is exported: "Head bolts: pass 2 of 4, bolt 3".</summary>
    public static string Done(OperationNet net, JointTightened act)
    {
        if (!net.Joints.TryGetValue(act.Joint, out var joint) || act.Pass > joint.Passes.Count)
        {
            return $"{act.Joint}: pass {act.Pass}";
        }

        var at = act.Bolt is { } bolt ? $", bolt {bolt}" : "";
        return $"{joint.Name}: pass {act.Pass} of {joint.Passes.Count}{at}";
    }

    /// <summary>What is turned now, large: "20 N·m", "90°", "Snug".</summary>
    public static string Target(PassAtHand at, TorqueUnit unit) => at.Pass.Kind switch
    {
        PassKind.Snug => Say("Snug"),
        PassKind.Angle => Short(at.Pass),
        _ => Figures.Of(at.Torque!.Value, unit),
    };

    /// <summary>The pass in a word or two: "snug", "50 %", "90°", "once round".</summary>
    public static string Short(Pass pass) => pass.Kind switch
    {
        PassKind.Snug => Say("snug"),
        PassKind.OnceRound => Say("once round"),
        _ => Figures.Marked(pass.Short),
    };

    /// <summary>From where the joint is seen so, where the map knows the side: “Seen from the right; 1 is on top.” Null from above and below, where nothing is on top.</summary>
    public static string? Seen(Joint joint) => (joint.At, joint.Tighten?.Holes?.Top) switch
    {
        (Position.Front, { } top) => Say($"Seen from the front; {top} is on top."),
        (Position.Rear, { } top) => Say($"Seen from the rear; {top} is on top."),
        (Position.Left, { } top) => Say($"Seen from the left; {top} is on top."),
        (Position.Right, { } top) => Say($"Seen from the right; {top} is on top."),
        (Position.Front, null) => Say("Seen from the front."),
        (Position.Rear, null) => Say("Seen from the rear."),
        (Position.Left, null) => Say("Seen from the left."),
        (Position.Right, null) => Say("Seen from the right."),
        _ => null,
    };

    /// <summary>What to mind in it; null where its name says all.</summary>
    public static string? Hint(Pass pass) => pass.Kind switch
    {
        PassKind.Snug => Say("By hand first, then just snug."),
        PassKind.Angle => Say("Further, from where it stands. Mark it before you turn."),
        PassKind.OnceRound => Say("Until none moves any more."),
        _ => null,
    };
}
