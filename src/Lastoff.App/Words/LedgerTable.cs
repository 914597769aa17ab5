using System.Globalization;
using Lastoff.Core.Ledger;

namespace Lastoff.App.Words;

/// <summary>A job's ledger as a table for a spreadsheet: one row for each entry, in English words whatever the person reads.</summary>
public static class LedgerTable
{
    private static readonly string[] Header = ["at", "by", "what", "said", "taken_back"];

    public static string Of(Job job)
    {
        var acts = job.Entries.Select(entry => (Entry: entry, Act: ActKinds.Read(entry, out _))).ToArray();
        var gone = Fold.TakenBackEntries(acts);
        return Spreadsheet.Write(acts.Select(pair => Row(job, pair.Entry, pair.Act, gone.Contains(pair.Entry.Id))).Prepend(Header));
    }

    private static string[] Row(Job job, Entry entry, Act? act, bool isTakenBack) =>
    [
        entry.At.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture),
        entry.By,
        act is null ? entry.Kind : StepWords.Done(job.Net, act),
        Said(act),
        isTakenBack ? "yes" : "",
    ];

    /// <summary>What was written down in words.</summary>
    private static string Said(Act? act) => act switch
    {
        JobOpened opened => $"{opened.Complaint}; {opened.Cause}",
        Agreed agreed => $"{agreed.What} ({agreed.Way})",
        EvidenceFound evidence => $"{evidence.Found} ({EvidenceWords.Of(evidence.By)})",
        CauseNamed cause => $"{cause.Cause}; {cause.Correction}",
        MachineIdentified machine => string.Join("; ", ((string[])[machine.Vin, machine.Plate, machine.Condition, .. machine.Lamps]).Where(text => text.Length > 0)),
        ItemTold told => told.Note,
        AppointmentSet set => set.What,
        ReCheckSet set => set.What,
        ReCheckDone done => done.Found,
        ThingLost lost => $"{lost.What}; {lost.Where}",
        ThingFound found => found.How,
        WorkTold told => told.What,
        Learned learned => learned.Text,
        Priced priced => priced.Reason,
        Paid paid => $"{PriceWords.InEnglish(paid.Way)}; {paid.For}",
        Noted noted => noted.Text,
        Moved { Despite: { } despite } => despite,
        JointStuck stuck => stuck.Text,
        ProofRecorded proof => proof.Reading,
        Settled settled => settled.How,
        HandedOver { Override: { } answer } => $"{answer.By}: {answer.Reason}",
        PhotoTaken photo => photo.Photo,
        _ => "",
    };
}
