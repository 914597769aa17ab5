using Lastoff.Core.Maps;

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

    /// <summary>Whether undoing the joint leaves fasteners in the hand.</summary>
    public static bool TakeFrom(Joint joint) => !joint.Captive
        && joint.Kind is JointKind.Bolt or JointKind.Nut or JointKind.Stud or JointKind.Screw or JointKind.Clip or JointKind.Clamp;

    /// <summary>A person said where it belongs: nothing of it lies in the tray any more.</summary>
    internal static void Settle(Standing standing, Guid entry)
    {
        foreach (var set in standing.Laid.Values.Where(set => set.LeftBy == entry && !standing.Asked.Exists(question => question.Entry == entry)).ToList())
        {
            standing.Laid.Remove(set.Joint);
        }
    }

    /// <summary>Looks at the standing before the move.</summary>
    internal static void Count(Standing standing, Entry entry, Moved moved)
    {
        var isUndone = moved.Move.Operation() == OperationKind.Undo && standing.IsDone(OperationKind.Undo, moved.Target);
        // Told a second time, it came out no more than once; where it lies may have been told only now.
        if (moved.Move == Move.JointUndone && (!isUndone || !standing.Laid.ContainsKey(moved.Target)))
        {
            standing.Laid.Remove(moved.Target);
            if (moved.Tray is { } tray)
            {
                standing.Laid[moved.Target] = new TraySet(moved.Target, tray, moved.Count);
            }
        }
        else if (moved.Move == Move.JointMade && isUndone && standing.Laid.Remove(moved.Target, out var set)
            && moved.Count is { } wentIn && set.Count is { } cameOut)
        {
            if (wentIn != cameOut)
            {
                Ask(standing, entry, set, cameOut, wentIn);
            }
            else if (wentIn >= standing.Net.Joints[set.Joint].Count)
            {
                // All that it has are in: whatever was left over of it before is among them.
                standing.Asked.RemoveAll(question => question.LeftOverOf == set.Joint);
            }
        }
    }

    private static void Ask(Standing standing, Entry entry, TraySet set, int cameOut, int wentIn)
    {
        var told = $"“{standing.Net.Joints[set.Joint].Name}”: {cameOut} came out into {set.Where} and {wentIn} went in";
        if (wentIn < cameOut)
        {
            standing.Laid[set.Joint] = set with { Count = cameOut - wentIn, LeftBy = entry.Id };
        }

        standing.Asked.Add(new Question(entry.Id, entry.By, wentIn < cameOut
            ? $"{told}; {cameOut - wentIn} left over. Find the place, or say why."
            : $"{told}; {wentIn - cameOut} came from elsewhere. Look, and say from where.")
        {
            LeftOverOf = wentIn < cameOut ? set.Joint : null,
        });
    }
}
