using Lastoff.Core.Fluids;
using Lastoff.Core.Ledger;
using Lastoff.Core.Papers;
using Lastoff.Core.Planning;

namespace Lastoff.App.Words;

/// <summary>How what is on file about a job is said on the screen.</summary>
public static class CaseWords
{
    public static string Of(PaperKind kind) => kind switch
    {
        PaperKind.Labels => "Labels for trays and connectors",
        PaperKind.Standing => "Where the job stands",
        PaperKind.Record => "Record of the job",
        PaperKind.Estimate => "Estimate",
        PaperKind.Invoice => "Invoice",
        _ => "Handover sheet",
    };

    /// <summary>Whom a paper is for.</summary>
    public static string For(PaperKind kind) => kind switch
    {
        PaperKind.Labels => "To cut out and lay into the trays.",
        PaperKind.Standing => "For the colleague who takes over in the middle.",
        PaperKind.Record => "Everything that was done, with its readings and its seal.",
        PaperKind.Estimate => "The latest price, for a yes.",
        PaperKind.Invoice => "What it cost, beside what was agreed.",
        _ => "For the customer.",
    };

    public static string Of(NeededKind kind) => kind switch
    {
        NeededKind.New => "New",
        NeededKind.Cover => "Covers and plugs",
        NeededKind.Tool => "Tools",
        _ => "Besides",
    };

    /// <summary>How it stands with something needed: “ordered, awaited on 30 May; at the counter; holds up the start”.</summary>
    public static string Of(Needed item) => string.Join("; ", ((string?[])
    [
        item.State == ItemState.Ordered && item.Told?.Awaited is { } day ? $"ordered, awaited on {Figures.Day(day)}" : Of(item.State),
        item.Told?.Note is { Length: > 0 } note ? note : null,
        item.Told?.HoldsUpTheStart == true && item.State != ItemState.Here ? "holds up the start" : null,
    ]).OfType<string>());

    public static string Amount(Needed item) => item.Unit.Length > 0 ? $", {Figures.Number(item.Count)} {item.Unit}" : item.Count == 1 ? "" : $", {Figures.Number(item.Count)}";

    /// <summary>What a job waits for, to go on with: “; the last awaited on 30 May”; empty when nothing is awaited.</summary>
    public static string Awaited(IEnumerable<Needed> items) =>
        items.Where(item => item.State == ItemState.Ordered).Select(item => item.Told?.Awaited).OfType<DateOnly>().Order().LastOrDefault() is { Year: > 1 } last
            ? $"; the last is awaited on {Figures.Day(last)}"
            : "";

    public static string Of(MachineIdentified machine) => string.Join(", ", ((string?[])
    [
        machine.Plate.Length > 0 ? machine.Plate : null,
        machine.Vin.Length > 0 ? machine.Vin : null,
        machine.Odometer_km is { } km ? $"{Figures.Number(km)} km" : null,
        machine.Hours_h is { } hours ? $"{Figures.Number(hours)} h" : null,
        machine.Lamps.Count > 0 ? $"lamps: {string.Join(", ", machine.Lamps)}" : null,
        machine.Condition.Length > 0 ? machine.Condition : null,
    ]).OfType<string>()) is { Length: > 0 } text ? text : "Nothing is known of it";

    /// <summary>The next day that this job waits for.</summary>
    public static string NextDay(CaseFile file, DateOnly today)
    {
        List<(DateOnly Day, string What)> days =
        [
            .. file.Appointments.Select(made => (DateOnly.FromDateTime(made.Set.On.LocalDateTime), made.Set.What)).Where(day => day.Item1 >= today),
            .. file.Items.Values.Where(item => item is { State: ItemState.Ordered, Awaited: not null }).Select(item => (item.Awaited!.Value, item.Item)),
            .. file.ReChecks.Where(check => check.Found is null).Select(check => (check.On, check.What)),
        ];
        return days.Count == 0 ? "Appointments, parts awaited, second looks" : days.Min() is var (day, what) ? $"{Figures.Day(day)}: {what}" : "";
    }

    /// <summary>What the trouble codes in a text stand for; null when none is in it.</summary>
    public static string? Codes(string text) =>
        string.Join(" ", text.Split([' ', ',', ';', '\n'], StringSplitOptions.RemoveEmptyEntries).Select(word => TroubleCode.Read(word.Trim('.', ':')).Value?.Sentence).OfType<string>()) is { Length: > 0 } codes ? codes : null;

    public static string Of(ItemState state) => state switch
    {
        ItemState.Missing => "not here",
        ItemState.Ordered => "ordered",
        ItemState.Here => "here",
        _ => "the wrong one",
    };
}
