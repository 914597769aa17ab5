using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>What must be true before a bolt, or a whole pass, is tightened.</summary>
internal static class PassGuards
{
    public static Refusal? Check(Standing standing, JointTightened act)
    {
        var net = standing.Net;
        if (!net.Joints.TryGetValue(act.Joint, out var joint))
        {
            return Guards.Unknown("joint", act.Joint);
        }

        if (act.Pass > joint.Passes.Count)
        {
            return new Refusal(RefusalKind.Unknown, joint.Passes.Count == 0
                ? $"The map gives no passes for “{joint.Name}”: make it and say so."
                : $"“{joint.Name}” has {joint.Passes.Count} passes on this map and no pass {act.Pass}.");
        }

        if (act.Bolt is { } bolt && !joint.Bolts.Contains(bolt))
        {
            return new Refusal(RefusalKind.Unknown, $"“{joint.Name}” has no bolt “{bolt}” on this map.");
        }

        if (!act.IsPlausible)
        {
            return new Refusal(RefusalKind.Forbidden, $"“{joint.Name}”: a torque is more than zero and a turn at most 360°; look at the figure and its unit.");
        }

        if (!standing.IsDone(OperationKind.Undo, joint.Id))
        {
            return new Refusal(RefusalKind.OutOfOrder, $"“{joint.Name}” is done up: undo it before it is tightened anew.");
        }

        var missing = PassesMade.Missing(standing, joint.Id).ToList();
        if (missing.Find(pass => pass.Number == act.Pass) is not { } pass || (act.Bolt is not null && !pass.Left.Contains(act.Bolt)))
        {
            return new Refusal(RefusalKind.Already, $"“{joint.Name}”: pass {act.Pass} ({joint.Passes[act.Pass - 1].Short}) is in already{(act.Bolt is null ? "" : " for this bolt")}.");
        }

        return missing[0].Number < act.Pass
            ? new Refusal(RefusalKind.OutOfOrder, $"“{joint.Name}”: pass {act.Pass} ({pass.Pass.Short}) comes after {Lack(missing[0])}.")
            : MoveGuards.BeforeMaking(standing, joint.Id);
    }

    /// <summary>A joint said to be made although one of its passes is not in.</summary>
    public static Refusal? NotTight(Standing standing, string id) => PassesMade.AtHand(standing, id) is { } at
        ? new Refusal(RefusalKind.OutOfOrder, $"“{at.Joint.Name}” cannot be done up yet: first {Lack(at)}.")
        : null;

    private static string Lack(PassAtHand at) =>
        $"pass {at.Number} ({at.Pass.Short}){(at.Left.Count == at.Joint.Count ? "" : $", in which {at.Left.Count} of {at.Joint.Count} bolts {(at.Left.Count == 1 ? "is" : "are")} left")}";
}
