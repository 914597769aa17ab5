using System.CommandLine;

namespace Lastoff.Commands;

/// <summary><c>lastoff joint ..</c>: how tight one joint is, what it bears, and what to set on the wrench.</summary>
internal static class JointCommand
{
    public const string Guidance = "Guidance only: the maker's specification for the machine comes first, and any value of theirs outranks a computed one.";

    public static Command Build() => new("joint", "Tension and torque of a bolt, stripping, the maker's figure against them, and the wrench.")
    {
        JointTension.Build(),
        JointScreen.Build(),
        JointStrip.Build(),
        JointJudge.Build(),
        JointWrench.Build(),
    };
}
