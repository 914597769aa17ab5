using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>Fills what a reading leaves open from another that speaks of the same thing.</summary>
internal static class Merging
{
    public static Reading Of(Reading reading, Reading more) => Flags(reading, more) with
    {
        Count = reading.Count ?? more.Count,
        Across = reading.Across ?? more.Across,
        Thread = reading.Thread ?? more.Thread,
        Drive = reading.Drive ?? more.Drive,
        Length = reading.Length ?? more.Length,
        At = reading.At ?? more.At,
        Tray = reading.Tray ?? more.Tray,
        Torque = reading.Torque ?? more.Torque,
        Tool = reading.Tool ?? more.Tool,
        Volume_L = reading.Volume_L ?? more.Volume_L,
        Question = reading.Question ?? more.Question,
    };

    /// <summary>“3/8 plug, allen key 8”: its thread, which becomes its name, and what turns it.</summary>
    public static Reading Keyed(Reading plug, Reading more) =>
        plug is { Kind: JointKind.Bolt, Name: { } name, Across: { } thread, Drive: null } && more is { Across: not null, Drive.Shape: DriveShape.InnerHex, Count: null }
            ? plug with { Name = $"{RecordedThing.Said(thread)} {name}", Across = null }
            : plug;

    /// <summary>“All four unplugged”.</summary>
    public static Reading WithCount(Reading reading, Heard heard) => heard.Open is { } number && reading.Count is null ? reading with { Count = (int)number.Number } : reading;

    /// <summary>Whether both say the same field otherwise, so that one would be lost.</summary>
    public static bool Loses(Reading reading, Reading more) =>
        Differ(reading.Tool, more.Tool) || Differ(reading.Tray, more.Tray) || Differ(reading.Across, more.Across) || Differ(reading.Thread, more.Thread) || Differ(reading.Torque, more.Torque)
        || Differ(reading.Count, more.Count) || Differ(reading.Length, more.Length) || Differ(reading.At, more.At) || Differ(reading.Volume_L, more.Volume_L);

    private static bool Differ<T>(T? one, T? other) => one is not null && other is not null && !EqualityComparer<T>.Default.Equals(one, other);

    public static Reading Flags(Reading reading, Reading more) => reading with
    {
        Captive = reading.Captive || more.Captive,
        LeftHand = reading.LeftHand || more.LeftHand,
        OneTime = reading.OneTime || more.OneTime,
        Broken = reading.Broken || more.Broken,
        Seized = reading.Seized || more.Seized,
        Sealed = reading.Sealed || more.Sealed,
    };
}
