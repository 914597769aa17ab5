using Lastoff.Core.Maps;
using Lastoff.Core.Recording;

namespace Lastoff.Core.Planning;

/// <summary>What a step asks for, in the words before its name: “Undo”, “Take off”.</summary>
public static class StepVerbs
{
    public static string Of(OperationNet net, StepKind kind, string target) => kind switch
    {
        StepKind.MakeSafe => RecordedMap.IsDrained(net.Map, target) ? "Drain" : "Make safe",
        StepKind.Undo => "Undo",
        StepKind.LayAside => "Lay aside",
        StepKind.TakeOff => "Take off",
        StepKind.Cover => "Cover at once",
        StepKind.Uncover => net.Openings.TryGetValue(target, out var opening) ? $"Take the {opening.Cover} out of" : "Take the cover out of",
        StepKind.Clean => "Clean and dry",
        StepKind.Renew => net.RenewalNamed(target) switch
        {
            { } renewal when IsReadied(net, renewal) => "Have the new one ready",
            { Kind: RenewalKind.Fluid } => "Have fresh",
            _ => "Put in new",
        },
        StepKind.Fit => "Fit",
        StepKind.BringHome => "Bring home",
        StepKind.Make => Making(net.Joints.GetValueOrDefault(target)?.Kind),
        StepKind.LastLook => "Last look at",
        StepKind.ReLook => "Look again at",
        StepKind.Work => "Do now",
        StepKind.Restore => IsFilled(net, target) ? "Fill" : "Restore",
        _ => "Prove",
    };

    /// <summary>What goes in by a later step: a part when it is fitted; and without a map what is wanted for a part, of which nobody knows where it goes.</summary>
    public static bool IsReadied(OperationNet net, Renewal renewal) => renewal.Kind == RenewalKind.Part || (RecordedMap.Is(net.Map) && (renewal.For == Renewal.Alone || net.Parts.ContainsKey(renewal.For)));

    /// <summary>A fluid whose amount the map knows, or that was told to be drained.</summary>
    public static bool IsFilled(OperationNet net, string target) =>
        net.Supplies.TryGetValue(target, out var supply) && supply.Amount_L is not null || RecordedMap.IsDrained(net.Map, target);

    private static string Making(JointKind? kind) => kind switch
    {
        JointKind.Connector or JointKind.Hose or JointKind.Pipe => "Connect",
        JointKind.Clip or JointKind.Tie => "Fasten",
        JointKind.Face => "Close",
        _ => "Do up",
    };
}
