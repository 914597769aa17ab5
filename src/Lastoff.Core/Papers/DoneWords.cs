using System.Globalization;
using Lastoff.Core.Fluids;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Papers;

/// <summary>What an entry says was done, as a line of a paper.</summary>
internal static class DoneWords
{
    public static Said Of(OperationNet net, Act act) => act switch
    {
        JobOpened opened => Lines("Job opened", opened.Complaint, opened.Cause.Length > 0 ? $"Cause: {opened.Cause}" : ""),
        GoalAdded added => Lines($"More work taken in: {string.Join(", ", added.Off.Concat(added.Undo).Select(id => NamesOf.Thing(net, id)))}", added.Despite is { } reason ? $"beyond the agreed sum: {reason}" : ""),
        Agreed agreed => AgreedWords(agreed),
        Priced priced => PricedWords(priced),
        Paid paid => new($"{NamesOf.Capital(Invoice.PaidWords(paid))}: {(paid.Amount.IsNegative ? -paid.Amount : paid.Amount)}", Datum.Of(PriceTables.Key("amount", paid.Amount.Currency), paid.Amount.Amount)),
        MachineIdentified => "The machine at arrival written down",
        EvidenceFound evidence => $"{evidence.Suspect}: {CaseBlocks.Found(evidence)}",
        CauseNamed named => Lines($"Cause: {named.Cause}", named.Correction),
        ItemTold told => Lines($"{told.Item}: {Words<ItemState>.Of(told.State)}{(told.Awaited is { } day ? $", awaited on {PaperTime.Of(day)}" : "")}", told.Note),
        AppointmentSet set => $"Appointment on {PaperTime.Of(set.On)}: {set.What}",
        ReCheckSet set => $"To be looked at again on {PaperTime.Of(set.On)}: {set.What}",
        ReCheckDone done => $"Looked at again: {done.Found}",
        BackIn back => $"Gone back in to {NamesOf.Thing(net, back.Joint)}, because this did not come out well: {NamesOf.Thing(net, back.Proof)}",
        ThingLost lost => lost.IsMissing ? $"Missing of {lost.Where}: {lost.What}" : $"Fell into {lost.Where}: {lost.What}",
        ThingFound found => new($"There again: {found.What}, {found.How}", Datum.Of("thing", found.Thing.ToString())),
        WorkTold told => $"More work taken in: {told.What}",
        WorkDone done => $"Done: {done.What}",
        Learned learned => CaseBlocks.Lesson(net, learned),
        Moved moved => MovedWords(net, moved),
        JointStuck stuck => StuckWords(net, stuck),
        OpeningCovered covered => net.Openings.TryGetValue(covered.Opening, out var opening) ? $"{NamesOf.Thing(net, covered.Opening)}: {opening.Cover} in" : $"{covered.Opening}: covered",
        OpeningUncovered uncovered => net.Openings.TryGetValue(uncovered.Opening, out var opening) ? $"{NamesOf.Thing(net, uncovered.Opening)}: {opening.Cover} out" : $"{uncovered.Opening}: cover out",
        FaceCleaned cleaned => $"{NamesOf.Thing(net, cleaned.Joint)}: clean and dry",
        RenewalFitted fitted => RenewalWords(net, fitted.Renewal),
        LastLookTaken look => $"{NamesOf.Thing(net, look.Joint)}: looked at before it was hidden",
        ReLookTaken look => $"{NamesOf.Thing(net, look.Joint)}: looked at again",
        JointTightened tightened => TorqueWords.Tightness(tightened) is var tight
            ? tight with { Text = $"{NamesOf.Thing(net, tightened.Joint)}: {TorqueWords.Pass(net, tightened)}, {tight.Text}" }
            : Said.Nothing,
        ProofRecorded proof => ReadingWords(net, proof),
        LineRecorded line => Said.Own($"“{line.Text}”"),
        LineCorrected corrected => new($"An earlier line put right: “{corrected.Text}”", Datum.Of("corrects", corrected.Line.ToString())),
        Noted noted => noted.About is { } about ? Said.Own($"{NamesOf.Thing(net, about)}: {noted.Text}") : $"Note: {noted.Text}",
        PhotoTaken photo => new(photo.About is { } about ? $"Photo of {NamesOf.Thing(net, about)}" : "Photo", Datum.Of("photo_sha256", photo.Photo)),
        TakenBack back => new("An earlier entry taken back", Datum.Of("taken_back", back.Entry.ToString())),
        Settled settled => new($"Question settled: {settled.How}", Datum.Of("settles", settled.Entry.ToString())),
        HandedOver handed => Lines($"Handed over to {handed.To}", handed.ComplaintNow is { } now ? $"the complaint: {now}" : "", handed.Override is { } answer ? $"although something was open: {answer.By} answers for it, because: {answer.Reason}" : ""),
        _ => act.Kind,
    };

    private static Said AgreedWords(Agreed agreed) => new(
        Lines($"Agreed with {agreed.Who}, {agreed.Way}", agreed.What, agreed.Price is { } price ? $"to the price of {price.Total}" : ""),
        agreed.Price is { } named ? [Datum.Of("price", named.Entry.ToString()), Datum.Of(PriceTables.Key("total", named.Total.Currency), named.Total.Amount)] : []);

    private static Said PricedWords(Priced priced) => new(
        Lines($"Price made: {priced.Price.Total}", priced.Reason),
        Datum.Of(PriceTables.Key("total", priced.Price.Currency), priced.Price.Total.Amount), Datum.Of("price_sha256", priced.Sha256));

    private static Said MovedWords(OperationNet net, Moved moved)
    {
        List<Datum> data = [];
        var words = $"{NamesOf.Thing(net, moved.Target)}: {moved.Move.Done()}";
        if (moved.Move == Move.SupplyRestored && (moved.Amount_L is not null || moved.Poured is not null || moved.Left_ppm is not null))
        {
            words = FilledWords(net, moved);
        }
        else if (moved.Amount_L is { } litres)
        {
            words += string.Create(CultureInfo.InvariantCulture, $", {litres:0.##} L");
        }

        data.AddRange(FilledData(moved));
        if (moved.Count is { } count)
        {
            data.Add(Datum.Of("count", (decimal)count));
            words += $", {count} of them";
        }

        if (moved.Tray is { } tray)
        {
            data.Add(Datum.Of("tray", tray));
            words += $", in {Trays.Called(tray)}";
        }

        return new(moved.Despite is { } reason ? $"{words}\nall the same, because: {reason}" : words, data);
    }

    /// <summary>What was poured, and what the map asks for where the label poured does not say it: somebody looked, and poured it all the same.</summary>
    internal static string FilledWords(OperationNet net, Moved moved) => Lines($"{NamesOf.Thing(net, moved.Target)}: filled, {ProofLines.Words(moved)}", OtherLabel(net, moved));

    internal static string OtherLabel(OperationNet net, Moved moved) =>
        moved.Poured?.Fluid is { Length: > 0 } poured && net.Supplies.GetValueOrDefault(moved.Target)?.Fluid?.Label is { } wanted && FluidLabel.Warning(wanted, poured) is not null ? $"the map asks for “{wanted}”" : "";

    /// <summary>What was poured, as data.</summary>
    internal static IEnumerable<Datum> FilledData(Moved moved)
    {
        foreach (var (key, value) in new[]
        {
            ("amount_L", moved.Amount_L),
            ("percent", moved.Poured?.Percent),
            ("before_percent", moved.Poured?.BeforePercent),
            ("mix_percent", moved.Poured?.MixPercent),
            ("plus_minus_percent", moved.Poured?.PlusMinusPercent),
            ("fills", (double?)moved.Poured?.Fills),
            ("left_ppm", moved.Left_ppm),
        })
        {
            if (value is { } number && double.IsFinite(number))
            {
                yield return Datum.Of(key, number);
            }
        }
    }

    internal static Said StuckWords(OperationNet net, JointStuck stuck) => new(
        net.Joints.ContainsKey(stuck.Joint) ? Stuck.Words(net, stuck) : $"“{stuck.Joint}” is stuck",
        stuck.IsClosed ? [Datum.Of("closed", true)] : [Datum.Of("extra_minutes", stuck.ExtraMinutes)]);

    /// <summary>The same of a joint that came undone in the end, by whichever way.</summary>
    internal static Said WasStuck(OperationNet net, JointStuck stuck) => new(Stuck.WasWords(net, stuck), Datum.Of("extra_minutes", stuck.ExtraMinutes));

    private static string RenewalWords(OperationNet net, string id) => net.RenewalNamed(id) switch
    {
        null => $"New: {id}",
        { } renewal => $"New: {NamesOf.Capital(net.NameOf(renewal))}, {NewThings.Amount(renewal.Count, renewal.Unit)}",
    };

    private static Said ReadingWords(OperationNet net, ProofRecorded proof) =>
        new($"{NamesOf.Thing(net, proof.Proof)}: {ProofLines.Words(proof)}", Datum.Of("verdict", proof.Verdict.ToString().ToLowerInvariant()));

    internal static string Lines(params IEnumerable<string> lines) => string.Join('\n', lines.Where(line => line.Length > 0));
}
