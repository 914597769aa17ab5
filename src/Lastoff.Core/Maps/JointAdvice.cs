using Lastoff.Core.Joints;

namespace Lastoff.Core.Maps;

/// <summary>The map's tightness of a joint held against what can be computed from the rest the map states. It never changes the map's figure.</summary>
/// <param name="Judgement">Null where nothing is computed.</param>
/// <param name="WhyNot">Why something is not computed, in one sentence; null when all is, or when the map states nothing to compute from.</param>
public sealed record JointAdvice(Joint Joint, Judgement? Judgement, string? WhyNot)
{
    private const string SetByTurn = "Its last stage is a turn, which sets the tension, not the torque before it: no tension is computed; use the maker's stages.";

    /// <summary>What disagrees, in the sentences shown beside the map's figure.</summary>
    public IReadOnlyList<Finding> Disagreements => [.. (Judgement?.Findings ?? []).Where(finding => finding.Disagrees)];

    public static JointAdvice Of(Joint joint)
    {
        if (joint.Torque is not { } maker || joint.Tighten is not { } stated)
        {
            return new JointAdvice(joint, null, null);
        }

        if (FastenerActions.WhyNot(stated.Fastener) is { } why)
        {
            return new JointAdvice(joint, null, why);
        }

        if (stated.Passes.Any(pass => pass.Kind == PassKind.Angle))
        {
            return new JointAdvice(joint, null, SetByTurn);
        }

        if (stated.Strength is not { } strength || stated.Friction is not { } friction)
        {
            return new JointAdvice(joint, null, stated.Strength is null && stated.Friction is null ? null
                : $"Nothing is computed from it: state the {(stated.Strength is null ? "class of its fasteners" : "friction")} too.");
        }

        // The class was read with the thread, so the thread reads.
        var thread = ThreadReader.Read(joint.Thread!).Value!;
        var stripping = stated is { Engaged_mm: { } engaged, Into.Tensile_MPa: { } boss } ? Stripping.Of(thread, engaged, strength.Tensile_MPa, boss) : null;
        var bolt = new Tightening(thread, strength, BearingFace.For(thread), friction, friction);
        return new JointAdvice(joint, Judgement.Of(maker, bolt, stripping?.Value, stated.Hold_N), stripping?.Sentence);
    }
}
