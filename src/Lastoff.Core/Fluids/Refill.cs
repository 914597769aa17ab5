namespace Lastoff.Core.Fluids;

/// <summary>
/// A system drained in part and filled again. Volumes are added up as they are: glycol and water shrink by up to 1.7 % on mixing, which moves the
/// result by less than half a point and shows as a little more to top up.
/// </summary>
public sealed record Refill
{
    // How well these are known when nobody says better: common practice, no source.
    private const double StrengthReadingPlusMinus = 2;
    private const double DrainedShareUncertain = 0.02;
    private const double CapacityShareUncertain = 0.05;

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
        DrainsNeeded = Drains(strong);
        if (!Reachable && strong < 0 && strengthPercent < targetPercent && DrainsNeeded is { } drains)
        {
            // All water could thin the mix so far that something weak never brings it up again: no thinner than the drains after this one can mend.
            var least = strengthPercent + ((targetPercent - strengthPercent) / Math.Pow(LeftLitres / capacityLitres, drains - 1));
            poured = Math.Clamp(((least * capacityLitres) - (nowPercent * LeftLitres)) / strengthPercent, 0, drainedLitres);
        }

        Strong = poured;
        Water = drainedLitres - poured;
        ResultPercent = ((nowPercent * LeftLitres) + (strengthPercent * poured)) / capacityLitres;
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

    /// <summary>How the target is reached after all, or that it is not; null when this one drain does it.</summary>
    public string? NotReached => Reachable ? null
        : DrainsNeeded is { } drains
            ? FormattableString.Invariant($"{TargetPercent:0.#} % is not reached with one drain; {drains} drains of this size {(NeverExactly ? $"come within {NearPercent} %" : "reach it")}.")
            : FormattableString.Invariant($"{TargetPercent:0.#} % is not reached with any number of drains of this size; drain more, or pour something stronger.");

    /// <summary>How far the result may be off, in points, from what is read and measured: about two standard deviations.</summary>
    public double ResultPlusMinusPercent
    {
        get
        {
            var fromReading = StrengthReadingPlusMinus * LeftLitres / CapacityLitres;
            var fromDrained = DrainedShareUncertain * DrainedLitres * NowPercent / CapacityLitres;
            var fromCapacity = CapacityShareUncertain * Math.Abs(ResultPercent - NowPercent);
            return Math.Sqrt((fromReading * fromReading) + (fromDrained * fromDrained) + (fromCapacity * fromCapacity));
        }
    }

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
    /// How many drains of this size reach the target, each filled with the strongest (or, if the mix is too strong, with as much water as can still be mended) until the last.
    /// What is poured being the target itself, as ready-mix often is, it is only neared: then to within <see cref="NearPercent"/>. Nothing if no number does.
    /// </summary>
    public int? DrainsNeeded { get; }

    private int? Drains(double strong)
    {
        if (Reachable)
        {
            return 1;
        }

        // A weak ready-mix can spoil a mix that is too strong: more drains make it worse.
        if (strong > DrainedLitres && NowPercent > TargetPercent)
        {
            return null;
        }

        // After n such drains the mix is poured + (now - poured) keeps^n, with poured the strong fluid or water.
        var keeps = LeftLitres / CapacityLitres;
        var poured = TargetPercent > NowPercent ? StrengthPercent : 0;
        var aim = NeverExactly ? TargetPercent + (Math.Sign(NowPercent - TargetPercent) * NearPercent) : TargetPercent;
        var share = (aim - poured) / (NowPercent - poured);
        if (share is not (> 0 and < 1) || keeps <= 0)
        {
            return null;
        }

        var drains = (int)Math.Ceiling((Math.Log(share) / Math.Log(keeps)) - 1e-9);

        // Coming from above with something weaker than the target, one drain can leave it too strong and the next, even without any water, too weak.
        var strongest = StrengthPercent + ((NowPercent - StrengthPercent) * Math.Pow(keeps, drains));
        return poured == 0 && StrengthPercent < TargetPercent && strongest < aim - 1e-9 ? null : drains;
    }

    /// <summary>The target is exactly what is poured, so some of the old always stands between.</summary>
    public bool NeverExactly => !Reachable && (TargetPercent == StrengthPercent || TargetPercent == 0);
}
