using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

public enum OpenKind { Yes, Question, Supply, Joint, Part, Bare, Cover, Renewal, Proof, Goal, Lost, Work }

/// <summary>One thing that stands between here and the handover.</summary>
public sealed record OpenItem(OpenKind Kind, string Target, string Sentence);

/// <summary>What is still open. A machine may be handed over when this is empty.</summary>
public static class OpenItems
{
    public static IReadOnlyList<OpenItem> Of(Standing standing)
    {
        var open = new List<OpenItem>();
        if (standing.Opened is null)
        {
            open.Add(new OpenItem(OpenKind.Goal, "", "No job is open in this ledger."));
            return open;
        }

        // What fell in comes first: whatever closes over it has to come off again.
        open.AddRange(standing.File.NotFound.Select(thing => new OpenItem(OpenKind.Lost, thing.Entry.ToString(), thing.Sentence)));
        open.AddRange(standing.Questions.Select(q => new OpenItem(OpenKind.Question, q.Entry.ToString(), q.Sentence)));
        if (standing.Agreed is null)
        {
            open.Add(new OpenItem(OpenKind.Yes, "", "Nobody's yes to this work is on record."));
        }

        if (standing.OverAgreed is { } over)
        {
            open.Add(new OpenItem(OpenKind.Yes, standing.LatestPrice!.Entry.ToString(), $"{over} Nobody's yes to that is on record."));
        }

        open.AddRange(Joints(standing));
        open.AddRange(Parts(standing));
        open.AddRange(Openings(standing));
        open.AddRange(Renewals(standing));
        open.AddRange(standing.Net.Map.Supplies
            .Where(s => standing.IsDone(OperationKind.MakeSafe, s.Id))
            .Select(s => new OpenItem(OpenKind.Supply, s.Id, $"“{s.Name}” {NotBack(s.Kind)}.")));
        open.AddRange(standing.Filled.Where(filled => filled.ChangesLeft > 0)
            .Select(filled => new OpenItem(OpenKind.Supply, filled.Target, $"“{standing.Net.Supplies[filled.Target].Name}” is to be changed {(filled.ChangesLeft == 1 ? "once" : $"{filled.ChangesLeft} times")} more.")));
        open.AddRange(standing.File.WorkLeft.Select(work => new OpenItem(OpenKind.Work, work.What, $"“{work.What}” is not done yet.")));
        open.AddRange(Goals(standing));
        open.AddRange(Proofs(standing));
        return open;
    }

    private static string NotBack(SupplyKind kind) => kind switch
    {
        SupplyKind.Coolant or SupplyKind.Oil or SupplyKind.Refrigerant => "is not filled again",
        SupplyKind.Battery or SupplyKind.HighVoltage => "is not connected again",
        _ => "is not back on",
    };

    /// <summary>The joints not made, those that something covers already first: they are the ones that get forgotten.</summary>
    private static IEnumerable<OpenItem> Joints(Standing standing) =>
        from joint in standing.Net.Map.Joints
        where standing.IsDone(OperationKind.Undo, joint.Id)
        let covering = InTheWay.Covering(standing, joint.Id).Select(p => $"“{standing.Net.Parts[p].Name}”").ToList()
        orderby covering.Count == 0
        let far = PassesMade.Any(standing, joint) ? $", {PassesMade.Words(standing, joint)}" : ""
        select new OpenItem(OpenKind.Joint, joint.Id, covering.Count == 0
            ? $"“{joint.Name}” is not done up{far}."
            : $"“{joint.Name}” is not done up{far}; it is now covered by {string.Join(" and ", covering)}.");

    private static IEnumerable<OpenItem> Parts(Standing standing) =>
        from part in standing.Net.Map.Parts
        let state = standing.StateOf(part.Id)
        where state is PartState.Aside or PartState.Off
        select new OpenItem(OpenKind.Part, part.Id, $"“{part.Name}” is {(state == PartState.Off ? "off" : "laid aside")}.");

    private static IEnumerable<OpenItem> Openings(Standing standing)
    {
        foreach (var opening in standing.Net.Map.Openings)
        {
            var covered = standing.Covered.Contains(opening.Id);
            if (covered)
            {
                yield return new OpenItem(OpenKind.Cover, opening.Id, $"The {standing.CoverIn(opening)} is in “{opening.Name}”.");
            }
            else if (standing.IsBare(opening))
            {
                yield return new OpenItem(OpenKind.Bare, opening.Id, $"“{opening.Name}” is open and not covered.");
            }
        }
    }

    private static IEnumerable<OpenItem> Renewals(Standing standing) =>
        from target in standing.ToRenew.Order(StringComparer.Ordinal)
        where standing.WasOpen(target)
        from renewal in standing.RenewalsOwed(target)
        where !standing.Renewed.Contains(renewal.Id)
        select new OpenItem(OpenKind.Renewal, renewal.Id, $"“{renewal.Name}” is not in yet.");

    private static IEnumerable<OpenItem> Goals(Standing standing)
    {
        foreach (var part in standing.GoalParts.Where(p => !standing.WasDisturbed(OperationKind.Off, p)).Order(StringComparer.Ordinal))
        {
            yield return new OpenItem(OpenKind.Goal, part, $"“{standing.Net.Parts[part].Name}” has not been reached.");
        }

        foreach (var joint in standing.ToUndoAgain.Order(StringComparer.Ordinal))
        {
            yield return new OpenItem(OpenKind.Goal, joint, $"“{standing.Net.Joints[joint].Name}” is to be undone again.");
        }

        foreach (var joint in standing.GoalJoints.Where(j => !standing.WasDisturbed(OperationKind.Undo, j)).Order(StringComparer.Ordinal))
        {
            yield return new OpenItem(OpenKind.Goal, joint, $"“{standing.Net.Joints[joint].Name}” has not been reached.");
        }
    }

    private static IEnumerable<OpenItem> Proofs(Standing standing) =>
        from proof in standing.Net.Map.Proofs
        where standing.WasOpen(proof.For)
        let reading = standing.Readings.GetValueOrDefault(proof.Id)
        where reading?.Verdict != Verdict.Good
        select new OpenItem(OpenKind.Proof, proof.Id, reading is null
            ? $"“{proof.Name}” has not been proved."
            : $"“{proof.Name}” was {(reading.Verdict == Verdict.Bad ? "bad" : "unclear")}: {reading.Reading.TrimEnd('.')}.");
}
