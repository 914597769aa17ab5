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
