namespace Lastoff.Core.Fluids;

/// <summary>How far a mix may be off after drains and fillings, from how well strength, litres and capacity are known.</summary>
internal static class MixUncertainty
{
    // How well these are known when nobody says better: common practice, no source.
    private const double ReadingPlusMinusPercent = 2;
    private const double DrainedShare = 0.02;
    private const double CapacityShare = 0.05;

    /// <summary>In points, about two standard deviations, by the propagation of small errors.</summary>
    /// <param name="nowPercent">The strength before the first drain, as it was read.</param>
    /// <param name="strengthPercent">The strength of what is poured beside water.</param>
    /// <param name="fillings">Each drain, each measured by itself, and what of the strong fluid is poured after it; water fills the rest.</param>
    public static double PlusMinusPercent(double capacityLitres, double nowPercent, double strengthPercent, IEnumerable<(double DrainLitres, double StrongLitres)> fillings)
    {
        var percent = nowPercent;
        var fromReading = ReadingPlusMinusPercent;
        var fromDrainsSquared = 0.0;
        // One capacity stands in every filling, so its error adds up with its sign.
        var fromCapacity = 0.0;
        foreach (var (drain, strong) in fillings)
        {
            var keeps = 1 - (drain / capacityLitres);
            var fromThis = DrainedShare * drain * percent / capacityLitres;
            var next = (percent * keeps) + (strengthPercent * strong / capacityLitres);
            fromReading *= keeps;
            fromDrainsSquared = (fromDrainsSquared * keeps * keeps) + (fromThis * fromThis);
            fromCapacity = (fromCapacity * keeps) + (CapacityShare * (next - percent));
            percent = next;
        }

        return Math.Sqrt((fromReading * fromReading) + fromDrainsSquared + (fromCapacity * fromCapacity));
    }
}
