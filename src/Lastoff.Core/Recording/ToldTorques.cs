using Lastoff.Core.Joints;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>“Seat bolts 20 ft lb”, told when they are out: how tight they go back, and no other bolts.</summary>
internal sealed class ToldTorques
{
    /// <summary>It is called so from end to end.</summary>
    private const int Whole = 2;
    /// <summary>It is called so among other words.</summary>
    private const int InPart = 1;

    private readonly Dictionary<string, Torque> _torques = [];

    /// <summary>The reading as no more than a torque, where the line says nothing that came off, and a joint of that whole name was told before: by less of it, bolts that came off would be lost.</summary>
    /// <param name="before">What was told in the lines before.</param>
    public static Reading Alone(Reading reading, IReadOnlyList<Reading> before, bool saysDeed) =>
        !saysDeed && reading is { Deed: Deed.Undone, Torque: not null, Tray: null } && before.Any(other => other.Deed is Deed.Undone or Deed.Loose && Fit(reading, other) == Whole) ? reading with { Deed = Deed.Note } : reading;

    /// <param name="undone">What was said of each joint that is undone.</param>
    public void Add(LineRecorded line, IReadOnlyList<(string Joint, Reading Said)> undone)
    {
        foreach (var told in line.Readings)
        {
            if (told is { Deed: Deed.Note, Seized: false, Broken: false, Torque: { } torque } && Of(told, undone) is { } joint)
            {
                _torques[joint] = torque;
            }
        }
    }

    public Joint Given(Joint joint) => _torques.TryGetValue(joint.Id, out var torque) ? joint with { Torque = torque } : joint;

    /// <summary>The one joint that is called so; which of several is meant is not guessed at.</summary>
    private static string? Of(Reading told, IReadOnlyList<(string Joint, Reading Said)> undone) =>
        undone.GroupBy(one => Fit(told, one.Said)).Where(group => group.Key > 0).MaxBy(group => group.Key)?.ToList() is [var only] ? only.Joint : null;

    /// <summary>How well what is said of a torque fits a joint; 0 for not at all. A pump or a line has the torque of what is turned at it.</summary>
    private static int Fit(Reading told, Reading joint)
    {
        var kind = RecordedThing.KindOf(joint);
        if (told.Kind is null ? told.Part is null || !joint.IsTurned()
            : told.Kind != kind || told.Count is { } count && count != joint.Count || told.Across is { } across && across != joint.Across || told.Thread is { } thread && thread != joint.Thread)
        {
            return 0;
        }

        var (words, known) = (Words(told.Kind is null ? told.Part! : RecordedThing.JointName(told with { Count = 1 })), Words(RecordedThing.JointName(joint with { Count = 1 })));
        return known.SetEquals(words) ? Whole : known.IsSupersetOf(words) ? InPart : 0;
    }

    private static HashSet<string> Words(string name) => [.. RecordedThing.Plain(name).Split('-')];
}
