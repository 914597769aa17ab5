using System.Globalization;

namespace Lastoff.Core.Fluids;

/// <summary>How a vacuum reading is to be taken.</summary>
public enum VacuumJudgement
{
    /// <summary>Deep enough to fill.</summary>
    Deep,

    /// <summary>Too much air would stay.</summary>
    Shallow,

    /// <summary>Below where the coolant boils: the pump draws steam.</summary>
    Boiling,
}

/// <summary>Filling a drained system by vacuum: how deep it can go, and the air that stays.</summary>
public sealed record VacuumFill
{
    /// <summary>Warmer than this is a hot engine: hand-warm, and a third of the vacuum would be steam at the common depths (common practice, no source).</summary>
    public static Temperature WarmestEngine { get; } = Temperature.FromCelsius(40);

    // A fifth of the weather's pressure left, 24 inHg at sea level, is where the trade begins to fill (common practice, no source).
    private const double DeepEnoughShare = 0.2;

    private VacuumFill(Pressure ambient, Temperature coolant)
    {
        Ambient = ambient;
        Coolant = coolant;
        DeepestUseful = WaterVapour.SaturationPressure(coolant);
    }

    /// <summary>The air's absolute pressure on the spot.</summary>
    public Pressure Ambient { get; }

    public Temperature Coolant { get; }

    /// <summary>
    /// Absolute: water boils here, and the pump draws steam instead of air. Plain water's is taken: pockets of it stay in a drained system, and it
    /// boils before the mixture does.
    /// </summary>
    public Pressure DeepestUseful { get; }

    /// <summary>The vacuum a gauge shows at <see cref="DeepestUseful"/>.</summary>
    public Pressure DeepestUsefulOnGauge => Pressure.FromPascals(Ambient.Pascals - DeepestUseful.Pascals);

    /// <summary>The vacuum a gauge shows where filling can begin.</summary>
    public Pressure FillFromOnGauge => Pressure.FromPascals(Ambient.Pascals * (1 - DeepEnoughShare));

    public static Answer<VacuumFill> Of(Pressure ambient, Temperature coolant)
    {
        if (coolant > WarmestEngine)
        {
            var boils = coolant.Celsius < 100
                ? Text($"at {coolant} water boils under {Math.Max(0, ambient.InchesOfMercury - WaterVapour.SaturationPressure(coolant).InchesOfMercury):0.#} inHg of vacuum already, so the pump draws steam")
                : Text($"at {coolant} the coolant is boiling hot");
            return Answer.None<VacuumFill>(Text($"Do not pull a vacuum on a hot engine: {boils}, and opening the system scalds; let it cool below {WarmestEngine}."));
        }

        return coolant.Celsius < -40 || ambient.Kilopascals is < 20 or > 110
            ? Answer.None<VacuumFill>(Text($"{coolant} and an air pressure of {ambient} are not found in a bay; check the temperature, and that the barometer is absolute."))
            : new VacuumFill(ambient, coolant);
    }

    /// <summary>The absolute pressure behind a vacuum reading.</summary>
    public Answer<VacuumReading> Reading(Pressure vacuum) => vacuum > Ambient
        ? Answer.None<VacuumReading>(Text(
            $"A vacuum of {vacuum.InchesOfMercury:0.#} inHg is more than the weather allows here ({Ambient.InchesOfMercury:0.#} inHg, {Ambient}): check the gauge's zero, its unit, the altitude, and that the reading is not absolute."))
        : new VacuumReading(this, Pressure.FromPascals(Ambient.Pascals - vacuum.Pascals));

    internal VacuumJudgement Judge(Pressure absolute) =>
        absolute < DeepestUseful ? VacuumJudgement.Boiling
        : absolute.Pascals <= Ambient.Pascals * DeepEnoughShare ? VacuumJudgement.Deep
        : VacuumJudgement.Shallow;

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}

/// <summary>A vacuum that was reached.</summary>
public sealed record VacuumReading(VacuumFill Fill, Pressure Absolute)
{
    public VacuumJudgement Judgement => Fill.Judge(Absolute);

    /// <summary>
    /// The share of the volume that is gas once the weather's pressure is back, if all that is left is air. It is the most there can be.
    /// </summary>
    public double AirLeftShare => Absolute.Pascals / Fill.Ambient.Pascals;

    /// <summary>The same if the inside is wet and the gas full of vapour, which turns back to water: the least there can be.</summary>
    public double AirLeftShareIfWet =>
        Math.Max(0, (Absolute.Pascals - Fill.DeepestUseful.Pascals) / (Fill.Ambient.Pascals - Fill.DeepestUseful.Pascals));
}
