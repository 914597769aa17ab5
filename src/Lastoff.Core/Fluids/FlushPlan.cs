namespace Lastoff.Core.Fluids;

/// <summary>One drain and what is poured after it.</summary>
/// <param name="DrainLitres">How much to let out.</param>
/// <param name="StrongLitres">Concentrate or ready-mix to pour.</param>
/// <param name="WaterLitres">Water to pour.</param>
/// <param name="OldPercent">What is still the old fluid afterwards.</param>
public sealed record FlushStep(double DrainLitres, double StrongLitres, double WaterLitres, double OldPercent);

/// <summary>
/// Drains and fillings that leave at most a given share of the old fluid, with the least fluid poured. Water is poured until the last time, because it is
/// cheapest; the last filling carries the whole target strength, less what the old fluid that is left brings to it.
/// </summary>
public sealed record FlushPlan(IReadOnlyList<FlushStep> Steps)
{
    public double WaterLitres => Steps.Sum(step => step.WaterLitres);
    public double StrongLitres => Steps.Sum(step => step.StrongLitres);

    /// <param name="capacityLitres">What the whole system holds.</param>
    /// <param name="drainLitres">The most that comes out in one drain.</param>
    /// <param name="oldPercentAllowed">How much of the old fluid may stay.</param>
    /// <param name="targetPercent">The strength wanted at the end.</param>
    /// <param name="strengthPercent">The strength of what is poured last.</param>
    /// <param name="nowPercent">The strength of the old fluid; 0 if it is not known, and then the end is a little stronger.</param>
    /// <param name="isDrained">The first drain is done already, as large as it can be.</param>
    public static Answer<FlushPlan> Of(
        double capacityLitres, double drainLitres, double oldPercentAllowed, double targetPercent, double strengthPercent = 100, double nowPercent = 0, bool isDrained = false)
    {
        if (!(capacityLitres > 0 && drainLitres > 0 && drainLitres <= capacityLitres))
        {
            return Answer.None<FlushPlan>("One drain lets out more than nothing and at most the capacity; measure what comes out, and check the capacity.");
        }

        if (!(oldPercentAllowed is > 0 and < 100))
        {
            return Answer.None<FlushPlan>("Some of the old fluid always stays: allow a share of it above 0 % and below 100 %.");
        }

        if (!(targetPercent is >= 0 and <= 100 && strengthPercent is > 0 and <= 100 && nowPercent is >= 0 and <= 100))
        {
            return Answer.None<FlushPlan>("Strengths are percent glycol by volume, from 0 to 100; what is poured has some glycol in it.");
        }

        var drains = LeastDrains.Leaving(oldPercentAllowed / 100, capacityLitres, drainLitres).ToList();
        if (drains.Count > LeastDrains.Most)
        {
            return Answer.None<FlushPlan>(FormattableString.Invariant(
                $"That takes more than {LeastDrains.Most} drains; drain more of the system at once, at the block too if it has a plug."));
        }

        // One drain may be smaller. It comes early, with water after it, so that the last has room for the whole of what must go in.
        var smaller = drains[^1];
        drains.RemoveAt(drains.Count - 1);
        drains.Insert(isDrained ? Math.Min(1, drains.Count) : 0, smaller);
        if (isDrained)
        {
            drains[0] = drainLitres;
        }

        double Old() => drains.Aggregate(100.0, (old, drain) => old * (1 - (drain / capacityLitres)));
        double Strong() => ((targetPercent * capacityLitres) - (nowPercent * capacityLitres * Old() / 100)) / strengthPercent;
        if (Strong() > drains[^1])
        {
            // As large as what must go in needs room, and no larger. Where the old is stronger than what is poured, more room only asks for more.
            var old = nowPercent * drains.SkipLast(1).Aggregate(1.0, (left, drain) => left * (1 - (drain / capacityLitres)));
            drains[^1] = old < strengthPercent ? Math.Min(drainLitres, capacityLitres * (targetPercent - old) / (strengthPercent - old)) : drainLitres;
        }

        if (Strong() < 0)
        {
            return Answer.None<FlushPlan>("What may stay of the old fluid is stronger than the mix that is wanted; allow less of it.");
        }

        var strong = Strong();
        if (strong > drainLitres * (1 + 1e-9))
        {
            return Answer.None<FlushPlan>(FormattableString.Invariant(
                $"After flushing with water, {strong:0.##} L of {(strengthPercent < 100 ? "ready-mix" : "concentrate")} must go in at the last filling and one drain makes room for {drainLitres:0.##} L; drain more of the system, pour something stronger, or aim for a weaker mix."));
        }

        var steps = new List<FlushStep>();
        var left = 100.0;
        foreach (var (drain, i) in drains.Select((drain, i) => (drain, i)))
        {
            left *= 1 - (drain / capacityLitres);
            var poured = i == drains.Count - 1 ? Math.Min(strong, drain) : 0;
            steps.Add(new FlushStep(drain, poured, drain - poured, left));
        }

        return new FlushPlan(steps);
    }
}
