using Lastoff.Core.Ledger;

namespace Lastoff.Core.Papers;

/// <summary>The days of a job, for whatever calendar the workshop keeps: appointments, parts that are awaited, and what is to be looked at again.</summary>
public static class Diary
{
    /// <summary>With the days that were called off, so that a calendar which had them lets them go.</summary>
    /// <param name="job">The identifier of the job, by which a calendar knows an occasion again.</param>
    public static IReadOnlyList<DiaryEntry> Of(Guid job, Standing standing)
    {
        var machine = standing.Opened?.Machine ?? "";
        return
        [
            .. standing.File.Appointments.Select(made => Appointment(made.Entry, made.Set)),
            .. standing.File.Items.Values.Where(item => item is { State: ItemState.Ordered, Awaited: not null } && !standing.HasCome(item.Item))
                .Select(item => new DiaryEntry($"{job}-{Uri.EscapeDataString(item.Item)}@lastoff", Occasion.PartExpected, $"{item.Item} for {machine}", item.Awaited!.Value) { Description = item.Note }),
            .. standing.File.ReChecks.Where(check => check.Found is null).Select(check => SecondLook(check.Entry, check.What, check.On)),
            .. from gone in standing.File.TakenBack
               let day = gone.Act switch
               {
                   AppointmentSet set => Appointment(gone.Entry, set),
                   ReCheckSet set => SecondLook(gone.Entry, set.What, set.On),
                   _ => null,
               }
               where day is not null
               select day with { IsCalledOff = true },
        ];

        DiaryEntry Appointment(Guid entry, AppointmentSet set) =>
            new($"{entry}@lastoff", Occasion.Appointment, $"{set.What}: {machine}", DateOnly.FromDateTime(set.On.DateTime)) { Set = entry, From = set.On };

        DiaryEntry SecondLook(Guid entry, string what, DateOnly on) => new($"{entry}@lastoff", Occasion.ReCheck, $"{what}: {machine}", on) { Set = entry };
    }
}
