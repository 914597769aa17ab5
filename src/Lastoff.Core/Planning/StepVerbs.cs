using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>What a step asks for, in the words before its name: “Undo”, “Take off”.</summary>
public static class StepVerbs
{
    public static string Of(OperationNet net, StepKind kind, string target) => kind switch
    {
        StepKind.MakeSafe => "Make safe",
        StepKind.Undo => "Undo",
        StepKind.LayAside => "Lay aside",
        StepKind.TakeOff => "Take off",
        StepKind.Cover => "Cover at once",
        StepKind.Uncover => "Take the cover out of",
        StepKind.Clean => "Clean and dry",
        StepKind.Renew => net.RenewalNamed(target)?.Kind switch
        {
            RenewalKind.Part => "Have the new one ready",
            RenewalKind.Fluid => "Have fresh",
            _ => "Put in new",
        },
        StepKind.Fit => "Fit",
        StepKind.BringHome => "Bring home",
        StepKind.Make => Making(net.Joints.GetValueOrDefault(target)?.Kind),
        StepKind.LastLook => "Last look at",
        StepKind.ReLook => "Look again at",
        StepKind.Restore => net.Supplies.TryGetValue(target, out var supply) && supply.Amount_L is not null ? "Fill" : "Restore",
        _ => "Prove",
    };

    private static string Making(JointKind? kind) => kind switch
    {
        JointKind.Connector or JointKind.Hose or JointKind.Pipe => "Connect",
        JointKind.Clip or JointKind.Tie => "Fasten",
        JointKind.Face => "Close",
        _ => "Do up",
    };
}
