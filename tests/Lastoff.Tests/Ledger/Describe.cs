using Lastoff.Core.Ledger;

namespace Lastoff.Tests.Ledger;

/// <summary>Everything a standing says, as text, so that two can be compared and a difference read.</summary>
public static class Describe
{
    public static string Everything(Standing standing) => string.Join('\n',
    [
        $"opened {standing.Opened?.Machine}, agreed {standing.Agreed?.Who}, handed over {standing.HandedOver}",
        "done " + string.Join(',', standing.Done),
        "disturbed " + string.Join(',', standing.Disturbed),
        "goals " + string.Join(',', standing.GoalParts.Concat(standing.GoalJoints).Order()),
        "covered " + string.Join(',', standing.Covered.Order()),
        $"covers {standing.CoversPutIn} {standing.CoversTakenOut}",
        "ever covered " + string.Join(',', standing.EverCovered.Order()),
        "cleaned " + string.Join(',', standing.Cleaned.Order()),
        "renewed " + string.Join(',', standing.Renewed.Order()),
        "looked " + string.Join(',', standing.Looked.Order()),
        "tightened " + string.Join(',', standing.Tightened.Select(t => $"{t.Joint} {t.Pass} {t.Bolt}").Order()),
        "re-looked " + string.Join(',', standing.ReLooked.OrderBy(r => r.Key).Select(r => r.Value.Sentence(r.Key))),
        "hands " + string.Join(',', standing.Net.Map.Joints.Select(j => string.Join('+', standing.TightenedBy(j.Id)))),
        "readings " + string.Join(',', standing.Readings.OrderBy(r => r.Key)),
        "filled " + string.Join(',', standing.Filled),
        "restored " + string.Join(',', standing.Restored),
        "stuck " + string.Join('\n', standing.Stuck),
        "in trays " + string.Join(',', standing.InTrays),
        "prices " + string.Join(',', standing.Prices.Select(price => $"{price.Entry} {price.Priced.Sha256} {price.Priced.Reason}")),
        "agreed prices " + string.Join(',', standing.Yeses.Select(yes => $"{yes.Entry} {yes.Agreed.Who} {yes.Price?.Entry} {yes.Price?.Price.Total}")),
        "over " + standing.OverAgreed + string.Join(',', standing.BeyondAgreed),
        "paid " + string.Join(',', standing.Payments),
        $"file {standing.File.Machine?.Vin} {standing.Cause} " + string.Join(',', standing.File.Evidence) + string.Join(',', standing.File.Items.Values.OrderBy(item => item.Item, StringComparer.Ordinal)),
        "days " + string.Join(',', standing.File.Appointments) + string.Join(',', standing.File.ReChecks),
        "lost " + string.Join(',', standing.File.Lost),
        "lessons " + string.Join(',', standing.File.Lessons),
        "questions " + string.Join('\n', standing.Questions),
        "open " + string.Join('\n', OpenItems.Of(standing)),
    ]);
}
