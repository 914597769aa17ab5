using Lastoff.App.Device;
using Lastoff.Core.Fluids;
using Lastoff.Core.Ledger;
using Lastoff.Core.Papers;
using Lastoff.Core.Planning;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Words;

/// <summary>How what is on file about a job is said on the screen.</summary>
public static class CaseWords
{
    public static string Of(PaperKind kind) => kind switch
    {
        PaperKind.Labels => Say("Labels for trays and connectors"),
        PaperKind.Standing => Say("Where the job stands"),
        PaperKind.Record => Say("Record of the job"),
        PaperKind.Estimate => Say("Estimate"),
        PaperKind.Invoice => Say("Invoice"),
        _ => Say("Handover sheet"),
    };

    /// <summary>Whom a paper is for.</summary>
    public static string For(PaperKind kind) => kind switch
    {
        PaperKind.Labels => Say("To cut out and lay into the trays."),
        PaperKind.Standing => Say("For the colleague who takes over in the middle."),
        PaperKind.Record => Say("Everything that was done, with its readings and its seal."),
        PaperKind.Estimate => Say("The latest price, for a yes."),
        PaperKind.Invoice => Say("What it cost, beside what was agreed."),
        _ => Say("For the customer."),
    };

    public static string Of(NeededKind kind) => kind switch
    {
        NeededKind.New => Say("New"),
        NeededKind.Cover => Say("Covers and plugs"),
        NeededKind.Tool => Say("Tools"),
        _ => Say("Besides"),
    };

    /// <summary>How it stands with something needed: “ordered, awaited on 30 May; at the counter; holds up the start”.</summary>
    public static string Of(Needed item) => string.Join("; ", ((string?[])
    [
        item.State == ItemState.Ordered && item.Told?.Awaited is { } day ? Say($"ordered, awaited on {Figures.Day(day)}") : Of(item.State),
        item.Told?.Note is { Length: > 0 } note ? note : null,
        item.Told?.HoldsUpTheStart == true && item.State != ItemState.Here ? Say("holds up the start") : null,
    ]).OfType<string>());

    /// <summary>As the map or a person calls it; what follows from the joints has a name of ours.</summary>
    public static string Name(Needed item) => item.Name switch
    {
        Needed.TorqueWrenchName => Say("Torque wrench"),
        Needed.ThreadLockName => Say("Thread lock"),
        var name when name.EndsWith(Needed.OnceMore, StringComparison.Ordinal) => Say($"{name[..^Needed.OnceMore.Length]}, once more"),
        var name when name.EndsWith(Needed.BrokeLastTime, StringComparison.Ordinal) => Say($"{Say(name[..^Needed.BrokeLastTime.Length])}, broke last time"),
        var name => name,
    };

    public static string Amount(Needed item) => item.IsUnmeasured ? Say(", as much as it takes") : item.Unit.Length > 0 ? $", {Figures.Number(item.Count)} {item.Unit}" : item.Count == 1 ? "" : $", {Figures.Number(item.Count)}";

    /// <summary>What a job waits for, to go on with: “; the last awaited on 30 May”; empty when nothing is awaited.</summary>
    public static string Awaited(IEnumerable<Needed> items) =>
        items.Where(item => item.State == ItemState.Ordered).Select(item => item.Told?.Awaited).OfType<DateOnly>().Order().LastOrDefault() is { Year: > 1 } last
            ? Say($"; the last is awaited on {Figures.Day(last)}")
            : "";

    public static string Of(MachineIdentified machine) => string.Join(", ", ((string?[])
    [
        machine.Plate.Length > 0 ? machine.Plate : null,
        machine.Vin.Length > 0 ? machine.Vin : null,
        machine.Odometer_km is { } km ? $"{Figures.Number(km)} km" : null,
        machine.Hours_h is { } hours ? $"{Figures.Number(hours)} h" : null,
        machine.Lamps.Count > 0 ? Say($"lamps: {string.Join(", ", machine.Lamps)}") : null,
        machine.Condition.Length > 0 ? machine.Condition : null,
    ]).OfType<string>()) is { Length: > 0 } text ? text : Say("Nothing is known of it");

    /// <summary>The next day that this job waits for.</summary>
    public static string NextDay(CaseFile file, DateOnly today)
    {
        List<(DateOnly Day, string What)> days =
        [
            .. file.Appointments.Select(made => (LocalTime.DayOf(made.Set.On), made.Set.What)).Where(day => day.Item1 >= today),
            .. file.Items.Values.Where(item => item is { State: ItemState.Ordered, Awaited: not null }).Select(item => (item.Awaited!.Value, item.Item)),
            .. file.ReChecks.Where(check => check.Found is null).Select(check => (check.On, check.What)),
        ];
        return days.Count == 0 ? Say("Appointments, parts awaited, second looks") : days.Min() is var (day, what) ? $"{Figures.Day(day)}: {what}" : "";
    }

    /// <summary>What the trouble codes in a text stand for; null when none is in it.</summary>
    public static string? Codes(string text) =>
        string.Join(" ", text.Split([' ', ',', ';', '\n'], StringSplitOptions.RemoveEmptyEntries).Select(word => TroubleCode.Read(word.Trim('.', ':')).Value).OfType<TroubleCode>().Select(code => $"{code.Code} {AfterCode(code)}")) is { Length: > 0 } codes ? codes : null;

    /// <summary>What a trouble code stands for, to be read after the code itself.</summary>
    public static string AfterCode(TroubleCode code)
    {
        var system = code.Group is { } group ? $"{Say(code.System)}, {Say(group)}" : Say(code.System);
        return code.Meaning is { } meaning
            ? Say($"belongs to {system}; it is defined by {Say(code.Definer)} and says: {Say(meaning)}.")
            : Say($"belongs to {system}; it is defined by {Say(code.Definer)}, where it says what has failed.");
    }

    public static string Of(ItemState state) => Say(InEnglish(state));

    /// <summary>As it is exported.</summary>
    public static string InEnglish(ItemState state) => state switch
    {
        ItemState.Missing => "not here",
        ItemState.Ordered => "ordered",
        ItemState.Here => "here",
        _ => "the wrong one",
    };
}
