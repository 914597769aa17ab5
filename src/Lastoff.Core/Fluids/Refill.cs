namespace Lastoff.Core.Fluids;

/// <summary>
/// A system drained in part and filled again. Volumes are added up as they are: glycol and water shrink by up to 1.7 % on mixing, which moves the
/// result by less than half a point and shows as a little more to top up.
/// </summary>
public sealed record Refill
{
    /// <summary>Nearer than this, a refractometer shows no difference (common practice, no source).</summary>
    public const double NearPercent = 1;

    private Refill(double capacityLitres, double drainedLitres, double nowPercent, double targetPercent, double strengthPercent)
    {
        CapacityLitres = capacityLitres;
        DrainedLitres = drainedLitres;
        NowPercent = nowPercent;
        TargetPercent = targetPercent;
        StrengthPercent = strengthPercent;

        // So much of the strong fluid brings the mix to the target; less than none and more than fits are the two ways of missing it.
        var strong = ((targetPercent * capacityLitres) - (nowPercent * LeftLitres)) / strengthPercent;
        var poured = Math.Clamp(strong, 0, drainedLitres);
        Reachable = Math.Abs(strong - poured) <= 1e-9 * capacityLitres;
        Strong = poured;
        Water = drainedLitres - poured;
        ResultPercent = ((nowPercent * LeftLitres) + (strengthPercent * poured)) / capacityLitres;
        Plan = RefillPlan.Of(this);
    }

    public double CapacityLitres { get; }
    public double DrainedLitres { get; }
    public double NowPercent { get; }
    public double TargetPercent { get; }

    /// <summary>The strength of what is poured: 100 for concentrate, less for a ready-mix.</summary>
    public double StrengthPercent { get; }

    public double LeftLitres => CapacityLitres - DrainedLitres;

    /// <summary>Litres of concentrate or ready-mix to pour.</summary>
    public double Strong { get; }

    /// <summary>Litres of water to pour.</summary>
    public double Water { get; }

    public double ResultPercent { get; }

    /// <summary>Whether this one drain reaches the target.</summary>
    public bool Reachable { get; }

    /// <summary>How the target is reached with the least fluid, this drain being the first; nothing if it is not, or takes more than twenty drains.</summary>
    public RefillPlan? Plan { get; }

    /// <summary>How the target is reached after all, or that it is not; null when this one drain does it.</summary>
    public string? NotReached => (Reachable, Plan) switch
    {
        (true, _) => null,
        (_, { Steps.Count: 1 }) => FormattableString.Invariant($"{TargetPercent:0.#} % is only neared, to within {NearPercent} %: it is what you pour."),
        (_, { } plan) => FormattableString.Invariant($"{TargetPercent:0.#} % is not reached with one drain; {plan.Steps.Count} drains {(NeverExactly ? $"come within {NearPercent} %" : "reach it")}."),
        _ when ResultPercent < TargetPercent && StrengthPercent <= TargetPercent => FormattableString.Invariant($"{TargetPercent:0.#} % is not reached with any number of drains; pour something stronger."),
        _ => FormattableString.Invariant($"{TargetPercent:0.#} % is not reached with {LeastDrains.Most} drains of this size; drain more at once."),
    };

    /// <summary>How far the result may be off, in points, from what is read and measured: about two standard deviations.</summary>
    public double ResultPlusMinusPercent => MixUncertainty.PlusMinusPercent(CapacityLitres, NowPercent, StrengthPercent, [(DrainedLitres, Strong)]);

    /// <param name="strengthPercent">What is poured beside water: 100 for concentrate, the printed share for a ready-mix.</param>
    public static Answer<Refill> Of(double capacityLitres, double drainedLitres, double nowPercent, double targetPercent, double strengthPercent = 100)
    {
        if (!(capacityLitres > 0 && double.IsFinite(capacityLitres)))
        {
            return Answer.None<Refill>("The capacity is more than nothing: give what the whole system holds.");
        }

        if (!(drainedLitres > 0 && drainedLitres <= capacityLitres))
        {
            return Answer.None<Refill>("What was drained is more than nothing and at most the capacity; measure what came out, and check the capacity.");
        }

        if (!(nowPercent is >= 0 and <= 100 && targetPercent is >= 0 and <= 100 && strengthPercent is > 0 and <= 100))
        {
            return Answer.None<Refill>("Strengths are percent glycol by volume, from 0 to 100; what is poured has some glycol in it.");
        }

        return new Refill(capacityLitres, drainedLitres, nowPercent, targetPercent, strengthPercent);
    }

    /// <summary>
    /// The target is exactly what is poured, as a ready-mix often is, so some of the old always stands between: it is only neared, to within
    /// <see cref="NearPercent"/>.
    /// </summary>
    public bool NeverExactly => !Reachable && (TargetPercent == 0 || (TargetPercent == StrengthPercent && ResultPercent < TargetPercent));
}
