using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>Everything that can be recorded at this moment without a reason, apart from notes, goals, yes and handover.</summary>
public static class PossibleActs
{
    public static IEnumerable<Act> Of(Standing standing) => Candidates(standing).Where(act => Guards.Check(standing, act) is null);

    /// <summary>Every move of the machine that would change something, possible now or not.</summary>
    public static IEnumerable<Moved> AllMoves(Standing standing) =>
        standing.Net.Operations.Select(o => new Moved(standing.Done.Contains(o.Index) ? o.Kind.Back() : o.Kind.Out(), o.Target));

    private static IEnumerable<Act> Candidates(Standing standing)
    {
        var net = standing.Net;
        foreach (var move in AllMoves(standing))
        {
            yield return move;
        }

        foreach (var opening in net.Map.Openings)
        {
            yield return standing.Covered.Contains(opening.Id) ? new OpeningUncovered(opening.Id) : new OpeningCovered(opening.Id);
        }

        foreach (var joint in net.Map.Joints)
        {
            if (joint.Clean && !standing.Cleaned.Contains(joint.Id))
            {
                yield return new FaceCleaned(joint.Id);
            }

            if (standing.WasDisturbed(OperationKind.Undo, joint.Id) && !standing.Looked.Contains(joint.Id))
            {
                yield return new LastLookTaken(joint.Id);
            }

            if (standing.IsDone(OperationKind.Undo, joint.Id) && PassesMade.AtHand(standing, joint.Id) is { } pass)
            {
                yield return pass.Whole();
            }

            if (standing.IsDone(OperationKind.Undo, joint.Id) && PassesMade.Any(standing, joint))
            {
                yield return new Moved(Move.JointUndone, joint.Id);
            }

            if (joint.Passes.Count > 0 && standing.WasDisturbed(OperationKind.Undo, joint.Id) && !standing.ReLooked.ContainsKey(joint.Id))
            {
                yield return new ReLookTaken(joint.Id);
            }
        }

        foreach (var work in standing.File.WorkLeft)
        {
            yield return new WorkDone(work.What);
        }

        foreach (var renewal in standing.ToRenew.Where(standing.IsOpen).SelectMany(standing.RenewalsOwed))
        {
            yield return new RenewalFitted(renewal.Id);
        }
    }
}
