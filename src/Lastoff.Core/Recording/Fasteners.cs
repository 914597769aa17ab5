using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>What makes a reading one of a fastener that a tool turns.</summary>
internal static class Fasteners
{
    public static bool IsTurned(this Reading reading) => reading.Kind is JointKind.Bolt or JointKind.Nut or JointKind.Screw or JointKind.Stud;

    /// <summary>It says what tool goes on it.</summary>
    public static bool IsMeasured(this Reading reading) => reading.Across is not null || reading.Thread is not null || reading.Drive is not null;

    /// <summary>What a fastener is most likely called that nobody called anything: common practice, no source.</summary>
    public static JointKind Likely(Drive? drive) =>
        drive?.Shape is DriveShape.InnerStar or DriveShape.TamperStar or DriveShape.Slot or DriveShape.Cross or DriveShape.CrossZ ? JointKind.Screw : JointKind.Bolt;
}
