using Lastoff.App.Device;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Words;

/// <summary>How a step and an act are said on the screen.</summary>
public static class StepWords
{
    public static string Name(OperationNet net, StepKind kind, string target) => kind switch
    {
        StepKind.Cover or StepKind.Uncover => net.Openings.TryGetValue(target, out var opening) ? opening.Name : target,
        StepKind.Renew => net.RenewalNamed(target) is { } renewal ? net.NameOf(renewal) : target,
        StepKind.Prove => net.Proofs.TryGetValue(target, out var proof) ? proof.Name : target,
        _ => net.Parts.TryGetValue(target, out var part) ? part.Name
            : net.Joints.TryGetValue(target, out var joint) ? joint.Name
            : net.Supplies.TryGetValue(target, out var supply) ? supply.Name
            : target,
    };

    /// <summary>What is done in a step, at the start of a line: "Undo".</summary>
    public static string Verb(OperationNet net, StepKind kind, string target) => Say(StepVerbs.Of(net, kind, target));

    public static string Sentence(OperationNet net, PlanStep step) => $"{Verb(net, step.Kind, step.Target)}: {Name(net, step.Kind, step.Target)}";

    /// <summary>The planner's reason as a sentence of its own: a chain, of which each link is said.</summary>
    public static string Reason(PlanStep step) => Capital(Say(step.Why)) + ".";

    /// <summary>What the core put together of whole sentences, and of what the map itself says among them.</summary>
    public static string Sentences(string text) => string.Join(" ", text.Replace(". ", ".\n", StringComparison.Ordinal).Split('\n').Select(Say));

    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    /// <summary>The other way round, for what goes on within a line; other languages have words that are never small.</summary>
    public static string Small(string text) => text.Length == 0 || Language != Core.Languages.Language.English.Code ? text : char.ToLowerInvariant(text[0]) + text[1..];

    /// <summary>The step an act belongs to; null for what is no work on the machine.</summary>
    public static (StepKind Kind, string Target)? StepOf(Act act) => act switch
    {
        Moved moved => (moved.Move.AsStep(), moved.Target),
        OpeningCovered covered => (StepKind.Cover, covered.Opening),
        OpeningUncovered uncovered => (StepKind.Uncover, uncovered.Opening),
        FaceCleaned cleaned => (StepKind.Clean, cleaned.Joint),
        RenewalFitted fitted => (StepKind.Renew, fitted.Renewal),
        LastLookTaken look => (StepKind.LastLook, look.Joint),
        ReLookTaken look => (StepKind.ReLook, look.Joint),
        WorkDone done => (StepKind.Work, done.What),
        ProofRecorded proof => (StepKind.Prove, proof.Proof),
        _ => null,
    };

    /// <summary>An act still to be done: "Undo: bracket bolts".</summary>
    public static string ToDo(OperationNet net, Act act) =>
        StepOf(act) is var (kind, target) ? $"{Verb(net, kind, target)}: {Name(net, kind, target)}" : Said(net, act);

    /// <summary>An act that was done, in the person's language: "Bracket bolts: undone".</summary>
    public static string Said(OperationNet net, Act act) => act switch
    {
        EvidenceFound evidence => $"{evidence.Suspect}: {Say(EvidenceWords.Of(evidence.Speaks))}",
        ItemTold told => $"{told.Item}: {CaseWords.Of(told.State)}",
        AppointmentSet set => $"{set.What}: {Figures.Day(LocalTime.DayOf(set.On))}, {Figures.Hour(set.On)}",
        ReCheckSet set => Say($"Look again on {Figures.Day(set.On)}"),
        BackIn back => Say($"Back in to “{Name(net, StepKind.Undo, back.Joint)}”"),
        ThingLost lost => lost.IsMissing ? Say($"“{lost.Where}” lacks {lost.What}") : Say($"“{lost.What}” fell here: “{lost.Where}”"),
        ThingFound found => Say($"“{found.What}” there again"),
        ProofRecorded proof => $"{Name(net, StepKind.Prove, proof.Proof)}: {Say(VerdictWord(proof.Verdict))}",
        LineRecorded line => Say($"“{line.Text}”"),
        LineCorrected corrected => Say($"Put right: “{corrected.Text}”"),
        _ => Say(Done(net, act)),
    };

    /// <summary>The same in English whatever the person reads, as it is exported.</summary>
    public static string Done(OperationNet net, Act act) => act switch
    {
        JobOpened => "Job opened",
        GoalAdded => "Work taken in",
        WorkTold told => $"Work taken in: {told.What}",
        Agreed { Price: { } price } agreed => $"Yes from {agreed.Who} to {price.Total}",
        Agreed agreed => $"Yes from {agreed.Who}",
        Priced priced => $"Price of {priced.Price.Total}",
        Paid paid => paid.Amount.IsNegative ? $"{-paid.Amount} went back" : $"{paid.Amount} came in",
        MachineIdentified => "Machine written down",
        EvidenceFound evidence => $"{evidence.Suspect}: {EvidenceWords.Of(evidence.Speaks)}",
        CauseNamed => "Cause written down",
        ItemTold told => $"{told.Item}: {CaseWords.InEnglish(told.State)}",
        AppointmentSet set => $"{set.What}: {Figures.PlainDay(LocalTime.DayOf(set.On))}, {Figures.Hour(set.On)}",
        ReCheckSet set => $"Look again on {Figures.PlainDay(set.On)}",
        ReCheckDone => "Looked at again",
        BackIn back => $"Back in to “{Name(net, StepKind.Undo, back.Joint)}”",
        ThingLost lost => lost.IsMissing ? $"“{lost.Where}” lacks {lost.What}" : $"“{lost.What}” fell here: “{lost.Where}”",
        ThingFound found => $"“{found.What}” there again",
        Learned => "Learned",
        ProofRecorded proof => $"{Name(net, StepKind.Prove, proof.Proof)}: {VerdictWord(proof.Verdict)}",
        RenewalFitted fitted when net.RenewalNamed(fitted.Renewal) is { } renewal && StepVerbs.IsReadied(net, renewal) => $"{Name(net, StepKind.Renew, fitted.Renewal)}: new one ready",
        RenewalFitted fitted when net.RenewalNamed(fitted.Renewal)?.Kind == RenewalKind.Fluid => $"{Name(net, StepKind.Renew, fitted.Renewal)}: fresh, ready",
        JointTightened tightened => PassWords.Done(net, tightened),
        JointStuck stuck => $"{Name(net, StepKind.Undo, stuck.Joint)}: {(stuck.Broke ? "broke" : "stuck")}",
        LineRecorded line => $"“{line.Text}”",
        LineCorrected corrected => $"Put right: “{corrected.Text}”",
        Noted => "Note",
        PhotoTaken => "Photo",
        TakenBack => "Taken back",
        Settled => "Question settled",
        HandedOver handed => $"Handed over to {handed.To}",
        _ => StepOf(act) is var (kind, target) ? $"{Name(net, kind, target)}: {Past(kind)}" : act.Kind,
    };

    /// <summary>By its English word, which the page is also marked with.</summary>
    public static string VerdictWord(Verdict verdict) => verdict.ToString().ToLowerInvariant();

    private static string Past(StepKind kind) => kind switch
    {
        StepKind.MakeSafe => "made safe",
        StepKind.Undo => "undone",
        StepKind.LayAside => "laid aside",
        StepKind.TakeOff => "off",
        StepKind.Cover => "covered",
        StepKind.Uncover => "cover out",
        StepKind.Clean => "clean and dry",
        StepKind.Renew => "new one in",
        StepKind.Fit => "fitted",
        StepKind.BringHome => "home",
        StepKind.Make => "done up",
        StepKind.LastLook => "looked at",
        StepKind.ReLook => "looked at again",
        StepKind.Work => "done",
        _ => "restored",
    };
}
