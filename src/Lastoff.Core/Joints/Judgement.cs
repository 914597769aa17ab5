using System.Globalization;

namespace Lastoff.Core.Joints;

public enum FindingKind { WouldStrip, WouldYield, MightYield, TooLowToHold, MightNotHold, FarBelow, HoldNotJudged, StripNotJudged }

/// <summary>One way the maker's figure and the computed limits do not go together, in the sentence shown beside it.</summary>
public sealed record Finding(FindingKind Kind, string Sentence)
{
    /// <summary>False for what only tells how far the judgement went.</summary>
    public bool Disagrees => Kind is not (FindingKind.HoldNotJudged or FindingKind.StripNotJudged);
}

/// <summary>The maker's tightness held against what can be computed. The maker's figure is the one to use, whatever is found; both are shown.</summary>
/// <param name="Maker">The figure to use.</param>
/// <param name="Tension">What it pulls, over the friction range.</param>
/// <param name="YieldLimit">The highest torque within 90 % of yield at every friction in the range.</param>
/// <param name="StripLimit">The torque at which the weaker thread could strip, where it is known.</param>
/// <param name="HoldLimit">The torque needed for the clamp force at the highest friction, where one is stated.</param>
public sealed record Judgement(Torque Maker, Tension Tension, Torque YieldLimit, Torque? StripLimit, Torque? HoldLimit, IReadOnlyList<Finding> Findings)
{
    // Ours, not published: a figure under this share of the limit is likelier a slip of unit (in·lb read as N·m is a ninth) than meant.
    private const double FarBelowShare = 0.15;

    public const string MakerFirst = "The maker's figure stands; a computed limit only says look again, at the unit, the thread and the class, or ask the maker.";

    public bool Agrees => Findings.All(f => !f.Disagrees);

    public static Judgement Of(Torque maker, Tightening bolt, Stripping? stripping, double? clampNeeded_N)
    {
        var tension = bolt.At(maker);
        var limit = bolt.TorqueMax;
        var findings = new List<Finding>();
        if (tension.Yield != YieldReach.Below)
        {
            findings.Add(tension.Yield == YieldReach.PastAtAnyFriction
                ? new Finding(FindingKind.WouldYield, $"{maker} would take {bolt.Thread} {bolt.Strength.Name} past its yield at any friction of {bolt.ThreadFriction}; computed limit {limit}.")
                : new Finding(FindingKind.MightYield, $"{maker} could take {bolt.Thread} {bolt.Strength.Name} past its yield at the low end of friction {bolt.ThreadFriction}; computed limit {limit}."));
        }
        else if (tension.Utilisation > 1)
        {
            findings.Add(new Finding(FindingKind.MightYield, $"{maker} could take {bolt.Thread} {bolt.Strength.Name} past 90 % of its yield; computed limit {limit}."));
        }
        else if (tension.Utilisation < FarBelowShare && clampNeeded_N is null)
        {
            findings.Add(new Finding(FindingKind.FarBelow, $"{maker} is far below what {bolt.Thread} {bolt.Strength.Name} bears (computed limit {limit}); look whether the unit is right."));
        }

        Torque? stripLimit = stripping is null ? null : bolt.TorqueReaching(stripping.Strip_N);
        if (stripping is null)
        {
            findings.Add(new Finding(FindingKind.StripNotJudged, "Whether it would strip is not judged: state the engaged length and what it is screwed into."));
        }
        else if (bolt.MostPull_N(maker) is var pull && stripping.SafetyFactor(pull) < 1)
        {
            findings.Add(new Finding(FindingKind.WouldStrip, string.Create(CultureInfo.InvariantCulture,
                $"{maker} can pull {pull / 1000:0.0} kN and the {Word(stripping.WeakerThread)} strips at {stripping.Strip_N / 1000:0.0} kN; computed limit {stripLimit}.")));
        }

        Torque? holdLimit = clampNeeded_N is { } clamp ? Torque.FromNewtonMetres(bolt.TorqueFor_Nm(clamp).High) : null;
        if (clampNeeded_N is not { } needed)
        {
            findings.Add(new Finding(FindingKind.HoldNotJudged, "Whether it holds is not judged: state the clamp force the joint needs."));
        }
        else if (maker.NewtonMetres < bolt.TorqueFor_Nm(needed).Low)
        {
            findings.Add(new Finding(FindingKind.TooLowToHold, string.Create(CultureInfo.InvariantCulture,
                $"{maker} is too low to hold {needed / 1000:0.0} kN at any friction of {bolt.ThreadFriction}; {holdLimit} would.")));
        }
        else if (maker.NewtonMetres < holdLimit!.Value.NewtonMetres)
        {
            findings.Add(new Finding(FindingKind.MightNotHold, string.Create(CultureInfo.InvariantCulture,
                $"{maker} may not hold {needed / 1000:0.0} kN at the high end of friction {bolt.ThreadFriction}; {holdLimit} would.")));
        }

        return new Judgement(maker, tension, limit, stripLimit, holdLimit, findings);
    }

    public static string Word(WeakestPlace place) => place switch
    {
        WeakestPlace.BossThread => "thread in the boss",
        WeakestPlace.BoltThread => "thread of the bolt",
        _ => "shank of the bolt",
    };
}
