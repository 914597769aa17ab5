using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>What must be true before a supply, joint or part is moved, out or back.</summary>
internal static class MoveGuards
{
    public static Refusal? Check(Standing standing, Moved moved)
    {
        var net = standing.Net;
        if (!net.TryFind(moved.Move.Operation(), moved.Target, out var operation))
        {
            return moved.Move.Operation() == OperationKind.Aside && net.Parts.TryGetValue(moved.Target, out var whole)
                ? new Refusal(RefusalKind.Unknown, $"“{whole.Name}” cannot be laid aside on this map: take it off.")
                : Guards.Unknown(ActKinds.TargetName(moved.Move), moved.Target);
        }

        var done = standing.Done.Contains(operation);
        return moved.Move.IsBack()
            // More was poured in after it, or what went in was measured later.
            ? !done ? IsOtherAmount(standing, moved) ? null : Already(net.Operations[operation], moved.Move) : Back(standing, moved, operation) ?? Loose(standing, moved)
            : !done ? Out(standing, moved, operation)
            // Slackened before it was made: its passes begin anew.
            : moved.Move == Move.JointUndone && PassesMade.Any(standing, net.Joints[moved.Target]) ? null
            : Already(net.Operations[operation], moved.Move);
    }

    private static bool IsOtherAmount(Standing standing, Moved moved) =>
        moved is { Move: Move.SupplyRestored, Amount_L: { } litres } && standing.Restored.LastOrDefault(filled => filled.Target == moved.Target) is { } filled && filled.Amount_L != litres;

    private static Refusal? Out(Standing standing, Moved moved, int operation)
    {
        var net = standing.Net;
        if (moved.Move == Move.PartAside && standing.StateOf(moved.Target) == PartState.Off)
        {
            return new Refusal(RefusalKind.OutOfOrder, $"“{net.Parts[moved.Target].Name}” is off: it cannot be laid aside.");
        }

        if (!string.IsNullOrWhiteSpace(moved.Despite))
        {
            return null;
        }

        if (standing.Disturbed.Count == 0 && standing.File.HoldingUp.FirstOrDefault() is { } awaited)
        {
            return new Refusal(RefusalKind.OutOfOrder, $"Nothing may come off before “{awaited.Item}” is here: so it was marked. Say that it is here, or why the work begins without it.");
        }

        if (net.CanDo(standing.Done, operation))
        {
            return null;
        }

        var missing = InTheWay.Of(net, standing.Done, operation);
        return new Refusal(RefusalKind.OutOfOrder, $"“{net.Operations[operation].Name}” cannot be {moved.Move.Done()} yet: first {InTheWay.Words(net, missing)}.");
    }

    private static Refusal? Back(Standing standing, Moved moved, int operation)
    {
        var net = standing.Net;
        var name = net.Operations[operation].Name;
        var hanging = net.HoldingBack(standing.Done, operation);

        // A part put back over an open joint can be the truth, and is then told with its reason; a joint made over one never is.
        var told = !string.IsNullOrWhiteSpace(moved.Despite) && moved.Move is Move.PartHome or Move.PartFitted;
        if (hanging.Count > 0 && !told)
        {
            var first = net.Operations[hanging.First()];
            return new Refusal(RefusalKind.OutOfOrder, $"“{name}” cannot be {moved.Move.Done()} yet: first {InTheWay.BackWords(first)}{Others(hanging.Count)}.");
        }

        if (moved.Move == Move.JointMade && Buried(standing, moved.Target) is { } buried)
        {
            return new Refusal(RefusalKind.OutOfOrder, $"“{name}” cannot be done up yet: “{buried.Name}” lies under it and is not done up.");
        }

        return Closing(standing, moved) ?? Missing(standing, moved) ?? (told ? null : Unseen(standing, operation, name));
    }

    /// <summary>Why a joint that is undone cannot be made or tightened now, its passes apart.</summary>
    internal static Refusal? BeforeMaking(Standing standing, string joint) =>
        Back(standing, new Moved(Move.JointMade, joint), standing.Net.Find(OperationKind.Undo, joint));

    /// <summary>A joint that the map has tightened in passes, of which one is not in. That it was made otherwise can be the truth, and is then told with its reason.</summary>
    private static Refusal? Loose(Standing standing, Moved moved) =>
        moved.Move == Move.JointMade && string.IsNullOrWhiteSpace(moved.Despite) ? PassGuards.NotTight(standing, moved.Target) : null;

    /// <summary>An open joint that one of the parts this joint holds now covers.</summary>
    private static Joint? Buried(Standing standing, string joint)
    {
        var net = standing.Net;
        foreach (var undone in standing.Done)
        {
            if (net.Operations[undone] is { Kind: OperationKind.Undo, Target: var other }
                && other != joint
                && InTheWay.Covering(standing, other).Any(net.Joints[joint].Holds.Contains))
            {
                return net.Joints[other];
            }
        }

        return null;
    }

    /// <summary>A cover still in an opening that this move would close. A part fitted where it hung aside closes nothing yet.</summary>
    private static Refusal? Closing(Standing standing, Moved moved)
    {
        if (moved.Move == Move.PartFitted && standing.IsDone(OperationKind.Aside, moved.Target))
        {
            return null;
        }

        var covered = standing.Net.OpeningsOn.GetValueOrDefault(moved.Target, []).FirstOrDefault(o => standing.Covered.Contains(o.Id));
        return covered is null
            ? null
            : new Refusal(RefusalKind.OutOfOrder, $"The {standing.CoverIn(covered)} is still in “{covered.Name}”: take it out first.");
    }

    private static Refusal? Missing(Standing standing, Moved moved)
    {
        if (standing.RenewalsOwed(moved.Target).FirstOrDefault(r => !standing.Renewed.Contains(r.Id)) is { } renewal)
        {
            return new Refusal(RefusalKind.OutOfOrder, $"“{renewal.Name}” is not in yet: fit the new one first.");
        }

        if (OwnWork.OwedBefore(standing, moved.Target).FirstOrDefault() is { } work)
        {
            return new Refusal(RefusalKind.OutOfOrder, $"“{work.What}” is not done yet: do it first, or it is closed in.");
        }

        return moved.Move == Move.JointMade && standing.Net.Joints[moved.Target] is { Clean: true } joint && !standing.Cleaned.Contains(joint.Id)
            ? new Refusal(RefusalKind.OutOfOrder, $"The faces of “{joint.Name}” are not marked clean and dry yet.")
            : null;
    }

    /// <summary>A joint of this job that the next part on would hide without a last look.</summary>
    private static Refusal? Unseen(Standing standing, int operation, string name)
    {
        var unseen = LastLooks.Owed(standing, operation).FirstOrDefault();
        return unseen is null
            ? null
            : new Refusal(RefusalKind.OutOfOrder, $"“{name}” would hide “{unseen.Name}”: take a last look at it first.");
    }

    private static Refusal Already(Operation operation, Move move) =>
        new(RefusalKind.Already, $"“{operation.Name}” is {move.Done()} already.");

    private static string Others(int count) => count > 1 ? $" (and {count - 1} more)" : "";
}
