namespace Lastoff.Core.Joints;

/// <summary>How a fastener makes its thread and holds it, as far as it decides whether torque and tension can be computed.</summary>
public enum FastenerAction { Plain, PrevailingTorque, ThreadForming, TightenedToYield }

public static class FastenerActions
{
    /// <summary>Why nothing is computed for such a fastener; null when it can be.</summary>
    public static string? WhyNot(FastenerAction action) => action switch
    {
        FastenerAction.PrevailingTorque =>
            "A prevailing-torque nut takes torque just to turn, and how much differs from nut to nut: no tension is computed; use the maker's figure, which includes it.",
        FastenerAction.ThreadForming =>
            "A thread-forming or self-tapping screw spends its torque on forming the thread: no tension is computed; use the maker's figure.",
        FastenerAction.TightenedToYield =>
            "A bolt tightened to or past its yield is set by torque and angle, not by torque: no tension is computed; use the maker's stages, and a new bolt where the maker asks for one.",
        _ => null,
    };
}
