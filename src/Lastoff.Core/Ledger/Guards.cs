using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>What must be true before an act: the same rules for the thumb in the bay and for the fold of a merged ledger.</summary>
public static class Guards
{
    /// <summary>Why the act cannot be recorded now; null when it can.</summary>
    public static Refusal? Check(Standing standing, Act act)
    {
        if (act is JobOpened opened)
        {
            return standing.Opened is not null
                ? new Refusal(RefusalKind.Forbidden, "This job is open already; start another job instead.")
                // What is to be done may be known only once the cause is.
                : opened.HasMap && opened.Off.Count + opened.Undo.Count > 0 ? UnknownGoal(standing.Net, opened.Off, opened.Undo)
                : null;
        }

        if (standing.Opened is null)
        {
            return new Refusal(RefusalKind.Forbidden, "The ledger does not begin with the opening of a job; open the job first.");
        }

        if (standing.HandedOver is not null && !IsBesideTheWork(act) && !(act is TakenBack back && standing.File.TakenBack.Any(gone => gone.Entry == back.Entry)))
        {
            return new Refusal(RefusalKind.OutOfOrder, $"The machine was handed over to {standing.HandedOver.To}; take the handover back first, or open a new job.");
        }

        return Blank(act) ?? act switch
        {
            GoalAdded added => UnknownGoal(standing.Net, added.Off, added.Undo),
            WorkTold told => OwnWork.Check(standing, told),
            WorkDone done => OwnWork.Check(standing, done) ?? Unanswered(standing, done, done.Despite),
            BackIn again => BackIn.Check(standing, again),
            Priced priced => PriceGuards.Check(standing, priced),
            Agreed agreed => PriceGuards.Check(standing, agreed),
            Paid paid => PriceGuards.Check(standing, paid),
            Moved moved => Poured.Check(moved) ?? Tightness(moved) ?? MoveGuards.Check(standing, moved) ?? Unanswered(standing, moved, moved.Despite),
            JointStuck stuck => Stuck.Check(standing, stuck),
            OpeningCovered covered => Covering(standing, covered.Opening),
            OpeningUncovered uncovered => Uncovering(standing, uncovered.Opening),
            FaceCleaned cleaned => Cleaning(standing, cleaned.Joint),
            RenewalFitted fitted => Renewing(standing, fitted.Renewal),
            LastLookTaken look => Looking(standing, look.Joint),
            JointTightened tightened => PassGuards.Check(standing, tightened),
            ReLookTaken look => Looking(standing, look.Joint),
            ProofRecorded proof => Proving(standing, proof),
            Settled settled => standing.Questions.Any(q => q.Entry == settled.Entry)
                ? null
                : new Refusal(RefusalKind.Already, "Nothing is in question about that entry."),
            MachineIdentified { Odometer_km: < 0 } or MachineIdentified { Hours_h: < 0 } => new Refusal(RefusalKind.Forbidden, "A counter shows nothing below zero; write down what it shows."),
            ReCheckDone done => standing.File.ReChecks.Any(check => check.Entry == done.ReCheck)
                ? null
                : new Refusal(RefusalKind.Unknown, $"No re-check was set by the entry {done.ReCheck}."),
            ThingFound found => standing.File.Lost.FirstOrDefault(thing => thing.Entry == found.Thing) switch
            {
                null => new Refusal(RefusalKind.Unknown, "Nothing that fell in was recorded by that entry."),
                { Found: not null and not ThingFound.NotSaid } thing => new Refusal(RefusalKind.Already, $"“{thing.What}” is found already."),
                _ => null,
            },
            HandedOver handed => HandingOver(standing, handed),
            _ => null,
        };
    }

    /// <summary>It may be said, and taken back, when the machine is gone as well.</summary>
    internal static bool IsBesideTheWork(Act act) => act is Noted or PhotoTaken or Settled or AppointmentSet or ReCheckSet or ReCheckDone or Learned or Paid or ThingFound;

    internal static Refusal Unknown(string what, string id) =>
        new(RefusalKind.Unknown, $"The map has no {what} “{id}”; check the name, or the map this job was opened with.");

    private static Refusal? UnknownGoal(OperationNet net, IReadOnlyList<string> off, IReadOnlyList<string> undo) =>
        off.FirstOrDefault(p => !net.Parts.ContainsKey(p)) is { } part ? Unknown("part", part)
        : undo.FirstOrDefault(j => !net.Joints.ContainsKey(j)) is { } joint ? Unknown("joint", joint)
        : off.Count + undo.Count == 0 ? new Refusal(RefusalKind.Forbidden, "A job needs a goal: name the part to renew or the joint to get at.")
        : null;

    private static Refusal? Tightness(Moved moved) => JointTightened.IsTorque(moved.Torque_Nm) && JointTightened.IsTorque(moved.With?.Setting_Nm) ? null
        : new Refusal(RefusalKind.Forbidden, "A torque is above nothing and no mountain; check the number and its unit.");

    /// <summary>Work beyond the agreed sum that nobody gives a reason for.</summary>
    private static Refusal? Unanswered(Standing standing, Act act, string? despite) =>
        string.IsNullOrWhiteSpace(despite) ? PriceGuards.Beyond(standing, act) : null;

    private static Refusal? Covering(Standing standing, string id)
    {
        if (!standing.Net.Openings.TryGetValue(id, out var opening))
        {
            return Unknown("opening", id);
        }

        return standing.Covered.Contains(id) ? new Refusal(RefusalKind.Already, $"“{opening.Name}” is covered already.")
            : !standing.IsBare(opening) ? new Refusal(RefusalKind.OutOfOrder, $"“{opening.Name}” is closed: nothing lays it bare yet.")
            : null;
    }

    private static Refusal? Uncovering(Standing standing, string id) =>
        !standing.Net.Openings.TryGetValue(id, out var opening) ? Unknown("opening", id)
        : standing.Covered.Contains(id) ? null
        : new Refusal(RefusalKind.Already, $"“{opening.Name}” has no cover in it.");

    private static Refusal? Cleaning(Standing standing, string id) =>
        !standing.Net.Joints.TryGetValue(id, out var joint) ? Unknown("joint", id)
        : standing.IsDone(OperationKind.Undo, id) ? null
        : new Refusal(RefusalKind.OutOfOrder, $"“{joint.Name}” is done up: its faces cannot be got at.");

    private static Refusal? Renewing(Standing standing, string id)
    {
        foreach (var target in standing.ToRenew)
        {
            if (standing.RenewalsOwed(target).FirstOrDefault(r => r.Id == id) is { } renewal)
            {
                return standing.IsIn(renewal) ? new Refusal(RefusalKind.Already, $"“{renewal.Name}” is in already.")
                    : standing.IsOpen(target) ? null
                    : new Refusal(RefusalKind.OutOfOrder, $"“{renewal.Name}” cannot go in: “{NameOf(standing.Net, target)}” is not open.");
            }
        }

        return standing.GoalParts.FirstOrDefault(p => standing.Net.NewPart(p).Id == id) is { } goal
            ? new Refusal(RefusalKind.OutOfOrder, $"The new part cannot go in: “{NameOf(standing.Net, goal)}” is not off.")
            : Unknown("renewal", id);
    }

    private static Refusal? Looking(Standing standing, string id) =>
        !standing.Net.Joints.TryGetValue(id, out var joint) ? Unknown("joint", id)
        : standing.IsDone(OperationKind.Undo, id) ? new Refusal(RefusalKind.OutOfOrder, $"“{joint.Name}” is not done up yet: do it up, then look.")
        : InTheWay.Covering(standing, id).FirstOrDefault() is { } cover
            ? new Refusal(RefusalKind.OutOfOrder, $"“{joint.Name}” cannot be looked at: “{standing.Net.Parts[cover].Name}” covers it.")
        : null;

    private static Refusal? Proving(Standing standing, ProofRecorded recorded)
    {
        if (!standing.Net.Proofs.TryGetValue(recorded.Proof, out var proof))
        {
            return Unknown("proof", recorded.Proof);
        }

        if (recorded.IsOverruled && string.IsNullOrWhiteSpace(recorded.Overruled))
        {
            return new Refusal(RefusalKind.Forbidden, $"The readings of “{proof.Name}” say {ActKinds.Word(recorded.Evidence!.Says)}; to say {ActKinds.Word(recorded.Verdict)} all the same, write down why.");
        }

        var awaited = ProofNeeds.Of(standing.Net, proof, standing.Done);
        return awaited.Count == 0
            ? null
            : new Refusal(RefusalKind.OutOfOrder, $"“{proof.Name}” cannot be taken yet: first {InTheWay.BackWords(standing.Net.Operations[awaited.First()])}.");
    }

    /// <summary>What has to be said in words is said in words.</summary>
    private static Refusal? Blank(Act act)
    {
        var missing = act switch
        {
            Agreed { Who: var who } when string.IsNullOrWhiteSpace(who) => "who said yes",
            Agreed { What: var what } when string.IsNullOrWhiteSpace(what) => "what was agreed",
            Paid { For: var what } when string.IsNullOrWhiteSpace(what) => "what was paid for",
            ProofRecorded { Reading: var reading } when string.IsNullOrWhiteSpace(reading) => "what the reading was",
            Settled { How: var how } when string.IsNullOrWhiteSpace(how) => "how it is",
            LineRecorded { Text: var text } when string.IsNullOrWhiteSpace(text) => "what was done",
            LineCorrected { Text: var text } when string.IsNullOrWhiteSpace(text) => "what was done",
            EvidenceFound { Suspect: var suspect } when string.IsNullOrWhiteSpace(suspect) => "which cause is suspected",
            EvidenceFound { Found: var found } when string.IsNullOrWhiteSpace(found) => "what was found",
            CauseNamed { Cause: var cause } when string.IsNullOrWhiteSpace(cause) => "what the cause is",
            ItemTold { Item: var item } when string.IsNullOrWhiteSpace(item) => "what is needed",
            AppointmentSet { What: var what } when string.IsNullOrWhiteSpace(what) => "what is on that day",
            ReCheckSet { What: var what } when string.IsNullOrWhiteSpace(what) => "what is to be looked at again",
            ReCheckDone { Found: var found } when string.IsNullOrWhiteSpace(found) => "what was found",
            ThingLost { What: var what } when string.IsNullOrWhiteSpace(what) => "what fell in",
            ThingLost { Where: var where } when string.IsNullOrWhiteSpace(where) => "what it fell into, or where to",
            ThingFound { How: var how } when string.IsNullOrWhiteSpace(how) => "where it was",
            Learned { Text: var text } when string.IsNullOrWhiteSpace(text) => "what was learned",
            WorkTold { What: var what } when string.IsNullOrWhiteSpace(what) => "what is to be done",
            Noted { Text: var text } when string.IsNullOrWhiteSpace(text) => "what the note says",
            HandedOver { To: var to } when string.IsNullOrWhiteSpace(to) => "who takes the machine",
            _ => null,
        };
        return missing is null ? null : new Refusal(RefusalKind.Forbidden, $"Write down {missing}.");
    }

    /// <summary>Nothing may be open, unless a named person answers for it with a reason.</summary>
    private static Refusal? HandingOver(Standing standing, HandedOver handed)
    {
        if (handed.Override is { } answer)
        {
            return string.IsNullOrWhiteSpace(answer.By) || string.IsNullOrWhiteSpace(answer.Reason)
                ? new Refusal(RefusalKind.Forbidden, "To hand over with something open, a named person has to answer for it and say why.")
                : null;
        }

        var open = OpenItems.Of(standing);
        return open.Count == 0 ? null
            : new Refusal(RefusalKind.Forbidden, $"Not ready to hand over, {open.Count} still open: {open[0].Sentence}{(open.Count > 1 ? $" And {open.Count - 1} more." : "")}");
    }

    internal static string NameOf(OperationNet net, string target) =>
        net.Parts.TryGetValue(target, out var part) ? part.Name
        : net.Joints.TryGetValue(target, out var joint) ? joint.Name
        : net.Supplies.TryGetValue(target, out var supply) ? supply.Name
        : target;
}
