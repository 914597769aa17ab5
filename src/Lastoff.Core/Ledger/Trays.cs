namespace Lastoff.Core.Ledger;

/// <summary>Fasteners of one joint that lie in a tray.</summary>
/// <param name="Tray">As it was said: “2” for tray 2, or “bag 3”.</param>
/// <param name="Count">How many; null when nobody counted.</param>
public sealed record TraySet(string Joint, string Tray, int? Count)
{
    /// <summary>The entry by which the joint was made while these did not go in; null while it is undone.</summary>
    public Guid? LeftBy { get; init; }
    public bool IsLeftOver => LeftBy is not null;

    /// <summary>“tray 2”, “bag 3”.</summary>
    public string Where => Trays.Called(Tray);
}

/// <summary>Counts fasteners out of their joint into a tray, and in again. One left over is as wrong as one missing.</summary>
public static class Trays
{
    /// <summary>A tray as it is said: a number alone is a tray's.</summary>
    public static string Called(string tray) => tray.All(char.IsAsciiDigit) ? $"tray {tray}" : tray;

    /// <summary>A person said where it belongs: nothing of it lies in the tray any more.</summary>
    internal static void Settle(Standing standing, Guid entry)
    {
        foreach (var set in standing.Laid.Values.Where(set => set.LeftBy == entry && !standing.Asked.Exists(question => question.Entry == entry)).ToList())
        {
            standing.Laid.Remove(set.Joint);
        }
    }

    internal static void Count(Standing standing, Entry entry, Moved moved)
    {
        if (moved.Move == Move.JointUndone && moved.Tray is { } tray)
        {
            standing.Laid[moved.Target] = new TraySet(moved.Target, tray, moved.Count);
        }
        else if (moved.Move == Move.JointUndone)
        {
            standing.Laid.Remove(moved.Target);
        }
        else if (moved.Move == Move.JointMade && standing.Laid.Remove(moved.Target, out var set)
            && moved.Count is { } wentIn && set.Count is { } cameOut && wentIn != cameOut)
        {
            var name = standing.Net.Joints[moved.Target].Name;
            if (wentIn < cameOut)
            {
                standing.Laid[moved.Target] = set with { Count = cameOut - wentIn, LeftBy = entry.Id };
            }

            standing.Asked.Add(new Question(entry.Id, entry.By, wentIn < cameOut
                ? $"“{name}”: {cameOut} came out into {set.Where} and {wentIn} went in; {cameOut - wentIn} left over. Find the place, or say why."
                : $"“{name}”: {cameOut} came out into {set.Where} and {wentIn} went in; {wentIn - cameOut} came from elsewhere. Look, and say from where."));
        }
    }
}
