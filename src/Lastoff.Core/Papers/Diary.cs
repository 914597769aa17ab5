using Lastoff.Core.Ledger;

namespace Lastoff.Core.Papers;

/// <summary>The days of a job, for whatever calendar the workshop keeps: appointments, parts that are awaited, and what is to be looked at again.</summary>
public static class Diary
{
    /// <param name="job">The identifier of the job, by which a calendar knows an occasion again.</param>
    public static IReadOnlyList<DiaryEntry> Of(Guid job, Standing standing)
    {
        var machine = standing.Opened?.Machine ?? "";
        return
        [
            .. standing.File.Appointments.Select(made => new DiaryEntry($"{made.Entry}@lastoff", Occasion.Appointment, $"{made.Set.What}: {machine}", DateOnly.FromDateTime(made.Set.On.DateTime)) { Set = made.Entry, From = made.Set.On }),
            .. standing.File.Items.Values.Where(item => item is { State: ItemState.Ordered, Awaited: not null })
                .Select(item => new DiaryEntry($"{job}-{Uri.EscapeDataString(item.Item)}@lastoff", Occasion.PartExpected, $"{item.Item} for {machine}", item.Awaited!.Value) { Description = item.Note }),
            .. standing.File.ReChecks.Where(check => check.Found is null)
                .Select(check => new DiaryEntry($"{check.Entry}@lastoff", Occasion.ReCheck, $"{check.What}: {machine}", check.On) { Set = check.Entry }),
        ];
    }
}
