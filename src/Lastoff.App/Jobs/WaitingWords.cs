using Lastoff.App.Device;
using Lastoff.App.Words;
using Lastoff.Core.Ledger;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Jobs;

/// <summary>How what a job waits for is said: one sentence each, that names whom.</summary>
public static class WaitingWords
{
    public static string Of(WaitsFor wait) => wait switch
    {
        { Kind: WaitKind.Settling, Whom: [var one, var other] } => Say($"{one} and {other} to settle: {Say(wait.Question!)}"),
        { Kind: WaitKind.Settling } => Say($"{string.Join(", ", wait.Whom)} to say how it is: {Say(wait.Question!)}"),
        { Kind: WaitKind.Yes, Sum: { } sum, Since: { } since } => Say($"The customer: yes to {sum}, the price of {Figures.Time(since)}"),
        { Kind: WaitKind.Yes } => Say("The customer: yes to the work; no price is made yet"),
        { Kind: WaitKind.Item, Item: { } item } => Noted(Item(item, wait.Since), item.Note),
        { Kind: WaitKind.Day, Day: { } day } => Say($"The day: {day.What}, {Figures.Day(LocalTime.DayOf(day.On))}, {Figures.Hour(day.On)}"),
        { Kind: WaitKind.Photos, Photos: 1 } => Say($"A photo that is still on the device of {wait.Whom[0]}"),
        { Kind: WaitKind.Photos } => Say($"{wait.Photos} photos that are still on the device of {wait.Whom[0]}"),
        { Kind: WaitKind.HandOver } => Say("The customer: nothing is open, it can be handed over"),
        { Kind: WaitKind.Hand, Whom: [var who], Since: { } at } => Say($"The mechanic: {who} was last at it, {Figures.Time(at)}"),
        _ => Say("A mechanic to begin"),
    };

    private static string Item(ItemTold item, DateTimeOffset? since) => item switch
    {
        { State: ItemState.Ordered, Awaited: { } day } => Say($"“{item.Item}”: ordered, awaited on {Figures.Day(day)}"),
        { State: ItemState.Ordered } when since is { } at => Say($"“{item.Item}”: ordered {Figures.Time(at)}"),
        { State: ItemState.Ordered } => Say($"“{item.Item}”: ordered"),
        { State: ItemState.Wrong } => Say($"“{item.Item}”: the wrong one came"),
        _ => Say($"“{item.Item}”: to be ordered, nothing comes off before"),
    };

    private static string Noted(string text, string note) => note.Length > 0 ? $"{text}; {note.TrimEnd('.')}" : text;
}
