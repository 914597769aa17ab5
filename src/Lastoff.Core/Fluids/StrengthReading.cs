namespace Lastoff.Core.Fluids;

/// <summary>How strong a mixture is as it was read, and as well as that can be read.</summary>
/// <param name="Method">How: "refractometer", "hydrometer", "label".</param>
public sealed record StrengthReading(string Method, Coolant Coolant, double LowPercent, double HighPercent)
{
    // What a handheld refractometer and a hydrometer can be read to, and how well a share that somebody states is known: common practice, no source.
    private const double RefractometerPlusMinusKelvins = 1;
    private const double HydrometerPlusMinus = 0.002;
    private const double StatedPlusMinusPercent = 2;

    /// <param name="freezing">What a refractometer shows on the scale of this glycol.</param>
    public static Answer<StrengthReading> OfRefractometer(Glycol glycol, Temperature freezing) => Of(
        "refractometer", off => Coolant.FromRefractometer(glycol, Temperature.FromKelvins(freezing.Kelvins - off)), RefractometerPlusMinusKelvins, glycol);

    /// <param name="at">The temperature of the coolant it floated in.</param>
    public static Answer<StrengthReading> OfHydrometer(Glycol glycol, double specificGravity, Temperature at) => Of(
        "hydrometer", off => Coolant.FromHydrometer(glycol, specificGravity + off, at), HydrometerPlusMinus, glycol);

    /// <param name="percent">Glycol by volume, as a label or a strip says.</param>
    public static Answer<StrengthReading> OfPercent(Glycol glycol, double percent) => Of(
        "label", off => Coolant.FromVolumePercent(glycol, percent + off), StatedPlusMinusPercent, glycol);

    /// <param name="read">The mixture of a reading that is off by so much, more being stronger.</param>
    private static Answer<StrengthReading> Of(string method, Func<double, Answer<Coolant>> read, double plusMinus, Glycol glycol)
    {
        var coolant = read(0);
        return coolant.Found
            ? new StrengthReading(method, coolant.Value, read(-plusMinus).Value?.VolumePercent ?? 0, read(plusMinus).Value?.VolumePercent ?? Coolant.Strongest(glycol).VolumePercent)
            : Answer.None<StrengthReading>(coolant.Sentence);
    }
}
