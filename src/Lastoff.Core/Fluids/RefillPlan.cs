namespace Lastoff.Core.Fluids;

/// <summary>One drain and what is poured after it.</summary>
/// <param name="DrainLitres">How much to let out; the first has been.</param>
/// <param name="StrongLitres">Concentrate or ready-mix to pour.</param>
/// <param name="WaterLitres">Water to pour.</param>
/// <param name="Percent">The mix that makes, once it is stirred through.</param>
public sealed record RefillStep(double DrainLitres, double StrongLitres, double WaterLitres, double Percent);

/// <summary>
/// Drains and fillings that bring a mix to its target with the least fluid poured. Every filling is all of one thing, the strong fluid or water, which
/// moves the mix farthest for what it takes; the last drain is as small as is enough.
/// </summary>
public sealed record RefillPlan(IReadOnlyList<RefillStep> Steps)
{
    public double StrongLitres => Steps.Sum(step => step.StrongLitres);
    public double WaterLitres => Steps.Sum(step => step.WaterLitres);
    public double PouredLitres => StrongLitres + WaterLitres;

    /// <summary>The mix in the end.</summary>
    public double Percent => Steps[^1].Percent;

    /// <summary>The plan that begins with a first filling, no drain after it larger than the one before it; nothing if none gets there.</summary>
    internal static RefillPlan? Of(Refill first)
    {
        List<RefillStep> steps = [new(first.DrainedLitres, first.Strong, first.Water, first.ResultPercent)];
        if (first.Reachable)
        {
            return new RefillPlan(steps);
        }

        // What is poured from now on stands on the other side of the target; if it is the target, it is only neared.
        var now = first.ResultPercent;
        var isTooWeak = now < first.TargetPercent;
        var poured = isTooWeak ? first.StrengthPercent : 0;
        var aim = first.NeverExactly ? first.TargetPercent + (isTooWeak ? -Refill.NearPercent : Refill.NearPercent) : first.TargetPercent;
        var share = (aim - poured) / (now - poured);
        if (isTooWeak ? poured <= aim : poured >= aim)
        {
            return null;
        }

        var left = now - poured;
        foreach (var drain in LeastDrains.Leaving(share, first.CapacityLitres, first.DrainedLitres))
        {
            left *= 1 - (drain / first.CapacityLitres);
            steps.Add(new RefillStep(drain, isTooWeak ? drain : 0, isTooWeak ? 0 : drain, poured + left));
        }

        return steps.Count > LeastDrains.Most ? null : new RefillPlan(steps);
    }
}
