using Lastoff.App.Floor;
using Lastoff.Core.Ledger;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Jobs;

/// <summary>Where on the screen something that is still open is settled, or, while its turn has not come, where it lies.</summary>
/// <param name="Where">The view or the part of it, as it is headed.</param>
/// <param name="Focus">The element to begin at.</param>
public sealed record OpenWay(string Tab, string Where, string Focus)
{
    public const string Now = "now";
    public const string Back = "back";
    public const string Account = "account";

    /// <summary>What the address adds to the tab.</summary>
    public string Query { get; init; } = "";

    /// <summary>It leads to the yes, also where that was put off.</summary>
    public bool IsToTheYes { get; init; }

    /// <summary>Null for what is settled where it is listed, or nowhere on the screen yet. A question that a recorded line raises may be settled there by putting the line right.</summary>
    public static OpenWay? Of(JobSession session, OpenItem item) => item.Kind switch
    {
        OpenKind.Question when session.Job.IsRecorded && session.Job.Entries.Any(entry => entry.Kind == ActKinds.LineRecorded && entry.Id.ToString() == item.Target) => new OpenWay(Now, Say("Record"), LineOf(item.Target)),
        OpenKind.Lost or OpenKind.Question => null,
        OpenKind.Yes => new OpenWay(Now, session.Job.IsRecorded ? Say("Record") : Say("Now"), session.Job.IsRecorded ? "to-agree" : ActHeading.Id) { IsToTheYes = true },
        _ when session.InHand?.Target == item.Target => new OpenWay(session.Job.IsRecorded ? Back : Now, session.Job.IsRecorded ? Say("Way back") : Say("Now"), ActHeading.Id),
        OpenKind.Joint or OpenKind.Part when session.Standing.InTrays.FirstOrDefault(set => set.Target == item.Target) is { } set =>
            new OpenWay(Account, Say("Trays"), "trays-title") { Query = $"&tray={Uri.EscapeDataString(set.Tray)}" },
        OpenKind.Joint or OpenKind.Part or OpenKind.Supply or OpenKind.Cover =>
            new OpenWay(Account, Say("Out, home"), RowOf(item.Target)) { Query = $"&thing={Uri.EscapeDataString(item.Target)}" },
        _ => null,
    };

    /// <summary>What a recorded line is called on the page.</summary>
    public static string LineOf(string entry) => $"line-{entry}";

    /// <summary>What the row of a thing that left its place is called on the page.</summary>
    public static string RowOf(string target) => $"out-{target}";
}
