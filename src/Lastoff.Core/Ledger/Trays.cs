using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>Fasteners of one joint that lie in a tray, or a part that does.</summary>
/// <param name="Tray">As it was said: “2” for tray 2, or “bag 3”.</param>
/// <param name="Count">How many; null when nobody counted.</param>
public sealed record TraySet(string Target, string Tray, int? Count)
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
    /// <summary>The trays that need no name of their own.</summary>
    public static IReadOnlyList<string> Numbered { get; } = ["1", "2", "3", "4", "5", "6"];

    /// <summary>A tray as it is said: a number alone is a tray's.</summary>
    public static string Called(string tray) => tray.All(char.IsAsciiDigit) ? $"tray {tray}" : tray;

    /// <summary>Whether undoing the joint leaves fasteners in the hand.</summary>
    public static bool TakeFrom(Joint joint) => !joint.Captive
        && joint.Kind is JointKind.Bolt or JointKind.Nut or JointKind.Stud or JointKind.Screw or JointKind.Clip or JointKind.Clamp;

    /// <summary>Whether it is to be said where they go: what broke goes into no tray.</summary>
    public static bool Take(Standing standing, Joint joint) => TakeFrom(joint) && WholeOnes(standing, joint) > 0;

    /// <summary>A person said where it belongs: nothing of it lies in the tray any more.</summary>
    internal static void Settle(Standing standing, Guid entry)
    {
        foreach (var set in standing.Laid.Values.Where(set => set.LeftBy == entry && !standing.Asked.Exists(question => question.Entry == entry)).ToList())
        {
            standing.Laid.Remove(set.Target);
        }
    }

    /// <summary>Looks at the standing before the move.</summary>
    internal static void Count(Standing standing, Entry entry, Moved moved)
    {
        var isAway = standing.IsDone(moved.Move.Operation(), moved.Target);
        // Told a second time, it came out no more than once; where it lies may have been told only now.
        if (moved.Move is Move.JointUndone or Move.PartOff && (!isAway || !standing.Laid.ContainsKey(moved.Target)))
        {
            standing.Laid.Remove(moved.Target);
            if (moved.Tray is { } tray)
            {
                standing.Laid[moved.Target] = new TraySet(moved.Target, tray, moved.Count);
            }
        }
        else if (moved.Move is Move.JointMade or Move.PartFitted && isAway && standing.Laid.Remove(moved.Target, out var set)
            && moved.Count is { } wentIn && set.Count is { } counted && standing.Net.Joints.TryGetValue(set.Target, out var joint))
        {
            var cameOut = counted + NewWith(standing, set);
            // All that it has are in: whatever was in doubt about their number before is settled, and one more than came out is the one that was left over.
            if (wentIn >= joint.Count && (wentIn == cameOut || wentIn == joint.Count && standing.Asked.Exists(question => question.CountOf == joint.Id)))
            {
                standing.Asked.RemoveAll(question => question.CountOf == joint.Id);
            }
            else if (wentIn != cameOut)
            {
                Ask(standing, entry, set, cameOut, wentIn);
            }
        }
    }

    /// <summary>How many come out whole: what broke goes into no tray, and its new one comes out again the next time.</summary>
    public static int WholeOnes(Standing standing, Joint joint) =>
        joint.Count - (standing.NewPieces.Any(piece => piece.For == joint.Id && !standing.PutIn.ContainsKey(piece.Id)) ? 1 : 0);

    /// <summary>How many new ones go in with those that came out whole.</summary>
    public static int NewWith(Standing standing, TraySet set) =>
        standing.Net.Joints.TryGetValue(set.Target, out var joint) && set.Count == joint.Count - 1 && standing.NewPieces.Any(piece => piece.For == joint.Id) ? 1 : 0;

    private static void Ask(Standing standing, Entry entry, TraySet set, int cameOut, int wentIn)
    {
        var told = $"“{standing.Net.Joints[set.Target].Name}”: {cameOut} came out into {set.Where} and {wentIn} went in";
        if (wentIn < cameOut)
        {
            standing.Laid[set.Target] = set with { Count = cameOut - wentIn, LeftBy = entry.Id };
        }

        standing.Asked.Add(new Question(entry.Id, entry.By, wentIn < cameOut
            ? $"{told}; {cameOut - wentIn} left over. Find the place, or say why."
            : $"{told}; {wentIn - cameOut} came from elsewhere. Look, and say from where.")
        {
            CountOf = set.Target,
        });
    }
}
