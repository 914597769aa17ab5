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
        "readings " + string.Join(',', standing.Readings.OrderBy(r => r.Key)),
        "filled " + string.Join(',', standing.Filled),
        "stuck " + string.Join('\n', standing.Stuck),
        "questions " + string.Join('\n', standing.Questions),
        "open " + string.Join('\n', OpenItems.Of(standing)),
    ]);
}
