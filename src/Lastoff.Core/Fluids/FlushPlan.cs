namespace Lastoff.Core.Fluids;

/// <summary>One drain and what is poured after it.</summary>
/// <param name="DrainLitres">How much to let out.</param>
/// <param name="StrongLitres">Concentrate or ready-mix to pour.</param>
/// <param name="WaterLitres">Water to pour.</param>
/// <param name="OldPercent">What is still the old fluid afterwards.</param>
public sealed record FlushStep(double DrainLitres, double StrongLitres, double WaterLitres, double OldPercent);

/// <summary>
/// Drains and refills that leave at most a given share of the old fluid, with the least fluid poured. What remains is the product of what each drain
/// keeps, and the fluid poured the sum of the drains: for the same product the sum is least when all drains but one are as large as they can be.
/// Water is poured until the last time, because it is cheapest; the last filling carries the whole target strength.
/// </summary>
public sealed record FlushPlan(IReadOnlyList<FlushStep> Steps)
{
    private const int MostDrains = 20;

    public double WaterLitres => Steps.Sum(step => step.WaterLitres);
    public double StrongLitres => Steps.Sum(step => step.StrongLitres);

    /// <param name="capacityLitres">What the whole system holds.</param>
    /// <param name="drainLitres">The most that comes out in one drain.</param>
    /// <param name="oldPercentAllowed">How much of the old fluid may stay.</param>
    /// <param name="targetPercent">The strength wanted at the end.</param>
    /// <param name="strengthPercent">The strength of what is poured last.</param>
    public static Answer<FlushPlan> Of(double capacityLitres, double drainLitres, double oldPercentAllowed, double targetPercent, double strengthPercent = 100)
    {
        if (!(capacityLitres > 0 && drainLitres > 0 && drainLitres <= capacityLitres))
        {
            return Answer.None<FlushPlan>("One drain lets out more than nothing and at most the capacity; measure what comes out, and check the capacity.");
        }

        if (!(oldPercentAllowed is > 0 and < 100))
        {
            return Answer.None<FlushPlan>("Some of the old fluid always stays: allow a share of it above 0 % and below 100 %.");
        }

        if (!(targetPercent is >= 0 and <= 100 && strengthPercent is > 0 and <= 100))
        {
            return Answer.None<FlushPlan>("Strengths are percent glycol by volume, from 0 to 100; what is poured has some glycol in it.");
        }

        var strongLitres = capacityLitres * targetPercent / strengthPercent;
        if (strongLitres > drainLitres * (1 + 1e-9))
        {
            return Answer.None<FlushPlan>(FormattableString.Invariant(
                $"After flushing with water, {strongLitres:0.##} L of {(strengthPercent < 100 ? "ready-mix" : "concentrate")} must go in at the last filling and one drain makes room for {drainLitres:0.##} L; drain more of the system, pour something stronger, or aim for a weaker mix."));
        }

        var keeps = 1 - (drainLitres / capacityLitres);
        var allowed = oldPercentAllowed / 100;
        var drains = keeps <= 0 ? 1 : (int)Math.Ceiling((Math.Log(allowed) / Math.Log(keeps)) - 1e-9);
        drains = Math.Max(drains, 1);
        if (drains > MostDrains)
        {
            return Answer.None<FlushPlan>(FormattableString.Invariant(
                $"That takes {drains} drains, more than {MostDrains}; drain more of the system at once, at the block too if it has a plug."));
        }

        // One drain may be smaller. It is the first, with water after it, so that the last has room for the whole of what must go in.
        var smaller = drains == 1 ? drainLitres : capacityLitres * (1 - (allowed / Math.Pow(keeps, drains - 1)));
        var steps = new List<FlushStep>();
        var old = 100.0;
        for (var i = 0; i < drains; i++)
        {
            var drain = i == 0 ? smaller : drainLitres;
            old *= 1 - (drain / capacityLitres);
            var strong = i == drains - 1 ? strongLitres : 0;
            steps.Add(new FlushStep(drain, strong, drain - strong, old));
        }

        return new FlushPlan(steps);
    }
}
