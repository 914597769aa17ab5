using System.Globalization;

namespace Lastoff.Core.Fluids;

/// <summary>
/// A mixture of one glycol and water, and what it does. The figures are those of uninhibited glycol; a bought antifreeze differs by 1 to 2 K,
/// so its maker's own table comes first where there is one.
/// </summary>
public sealed record Coolant
{
    /// <summary>How far the boiling point may be off: Raoult's law leaves out the glycol's own vapour.</summary>
    public const double BoilingPlusMinusKelvins = 2;

    // How far a bought antifreeze may be off, by its inhibitors and what water the concentrate has (Lange's Handbook).
    private const double LeastFreezingPlusMinusKelvins = 2;

    // A hydrometer is read to the thousandth.
    private const double HydrometerStep = 0.001;

    private const double WaterMolarMass = 18.015;

    private readonly GlycolTable table;

    private Coolant(Glycol glycol, double massPercent)
    {
        Glycol = glycol;
        MassPercent = massPercent;
        table = GlycolTable.Of(glycol);
    }

    public Glycol Glycol { get; }
    public double MassPercent { get; }

    /// <summary>The glycol's share of the volume, before mixing.</summary>
    public double VolumePercent => Interpolation.At(MassPercent, table.MassPercent, table.VolumePercent);

    /// <summary>Where the first ice forms, by ASHRAE's table. Give or take <see cref="FreezingPlusMinusKelvins"/>.</summary>
    public Temperature Freezing => Temperature.FromCelsius(Interpolation.At(MassPercent, table.MassPercent, table.FreezingCelsius));

    /// <summary>The same by Melinder's polynomial: an independent curve.</summary>
    public Temperature FreezingByMelinder
    {
        get
        {
            var fromCentre = MassPercent - table.MelinderCentre;
            var sum = 0.0;
            for (var i = table.MelinderFreezing.Length - 1; i >= 0; i--)
            {
                sum = (sum * fromCentre) + table.MelinderFreezing[i];
            }

            return Temperature.FromCelsius(sum);
        }
    }

    /// <summary>How far the freezing point may be off: 2 K, or how far the two published curves lie apart.</summary>
    public double FreezingPlusMinusKelvins => Math.Max(LeastFreezingPlusMinusKelvins, Math.Abs(Freezing.Kelvins - FreezingByMelinder.Kelvins));

    /// <summary>The strongest mixture the tables know.</summary>
    public static Coolant Strongest(Glycol glycol) => new(glycol, GlycolTable.Of(glycol).MassPercent[^1]);

    public static Answer<Coolant> FromVolumePercent(Glycol glycol, double percent)
    {
        var table = GlycolTable.Of(glycol);
        return percent >= 0 && percent <= table.VolumePercent[^1]
            ? new Coolant(glycol, Interpolation.At(percent, table.VolumePercent, table.MassPercent))
            : Answer.None<Coolant>(OutsideTheTable(glycol, percent, "volume", table.VolumePercent[^1]));
    }

    public static Answer<Coolant> FromMassPercent(Glycol glycol, double percent)
    {
        var table = GlycolTable.Of(glycol);
        return percent >= 0 && percent <= table.MassPercent[^1]
            ? new Coolant(glycol, percent)
            : Answer.None<Coolant>(OutsideTheTable(glycol, percent, "mass", table.MassPercent[^1]));
    }

    /// <summary>From the freezing point a refractometer shows on the scale of this glycol.</summary>
    public static Answer<Coolant> FromRefractometer(Glycol glycol, Temperature freezing)
    {
        var table = GlycolTable.Of(glycol);
        var celsius = freezing.Celsius;
        // Kelvins and back, the table's own end may come out a hair beyond it.
        return celsius <= 1e-9 && celsius >= table.FreezingCelsius[^1] - 1e-9
            ? new Coolant(glycol, Interpolation.At(Math.Clamp(celsius, table.FreezingCelsius[^1], 0), table.FreezingCelsius, table.MassPercent))
            : Answer.None<Coolant>(Text(
                $"A freezing point of {celsius:0.#} °C is outside the table, which runs from 0 °C down to {table.FreezingCelsius[^1]:0.#} °C; check that the reading was taken on the scale for {Name(glycol)}, and in °C or °F as given."));
    }

    /// <summary>From a hydrometer's specific gravity (against water at 15.6 °C, 60 °F), with the temperature of the coolant it floated in.</summary>
    public static Answer<Coolant> FromHydrometer(Glycol glycol, double specificGravity, Temperature at)
    {
        const double WaterAtSixtyFahrenheit = 999.0;
        var table = GlycolTable.Of(glycol);
        var wanted = specificGravity * WaterAtSixtyFahrenheit;
        var percents = new List<double>();
        var densities = new List<double>();
        for (var column = 0; column < table.Density[0].Length; column++)
        {
            if (DensityInColumn(table, column, at.Celsius) is { } density)
            {
                percents.Add(column * GlycolTable.DensityStepPercent);
                densities.Add(density);
            }
        }

        if (densities.Count < 2)
        {
            return Answer.None<Coolant>(Text($"No density is known at {at}; read the hydrometer with the coolant between -30 °C and 100 °C, best near 20 °C."));
        }

        const double Reading = HydrometerStep * WaterAtSixtyFahrenheit;
        return wanted >= densities[0] - Reading && wanted <= densities[^1] + Reading
            ? FromVolumePercent(glycol, Math.Min(Interpolation.At(wanted, densities, percents), table.VolumePercent[^1]))
            : Answer.None<Coolant>(Text(
                $"A specific gravity of {specificGravity:0.000} at {at} fits no mixture of {Name(glycol)} and water (from {densities[0] / WaterAtSixtyFahrenheit:0.000} to {densities[^1] / WaterAtSixtyFahrenheit:0.000}); check the reading, the temperature and which glycol it is."));
    }

    /// <summary>Density in kg/m3, where the mixture is liquid and the table has it.</summary>
    public double? DensityAt(Temperature temperature)
    {
        var columns = VolumePercent / GlycolTable.DensityStepPercent;
        var left = Math.Min((int)columns, table.Density[0].Length - 2);
        return DensityInColumn(table, left, temperature.Celsius) is { } low && DensityInColumn(table, left + 1, temperature.Celsius) is { } high
            ? low + ((columns - left) * (high - low))
            : null;
    }

    /// <summary>How much larger a volume gets from one temperature to another, free to expand: 0.045 is 4.5 %.</summary>
    public double? Expansion(Temperature from, Temperature to) =>
        DensityAt(from) is { } dense && DensityAt(to) is { } thin ? (dense / thin) - 1 : null;

    /// <summary>
    /// Where it boils under an absolute pressure: Raoult's law with water as the only vapour. Give or take <see cref="BoilingPlusMinusKelvins"/>.
    /// </summary>
    public Temperature BoilingAt(Pressure absolute) => WaterVapour.BoilingPoint(Pressure.FromPascals(absolute.Pascals / WaterMoleFraction));

    private double WaterMoleFraction
    {
        get
        {
            var water = (100 - MassPercent) / WaterMolarMass;
            return water / (water + (MassPercent / table.MolarMass));
        }
    }

    public bool Equals(Coolant? other) => other is not null && Glycol == other.Glycol && MassPercent.Equals(other.MassPercent);

    public override int GetHashCode() => HashCode.Combine(Glycol, MassPercent);

    public static string Name(Glycol glycol) => glycol == Glycol.Ethylene ? "ethylene glycol" : "propylene glycol";

    private static string OutsideTheTable(Glycol glycol, double percent, string by, double strongest) => Text(
        $"{percent:0.#} % of {Name(glycol)} by {by} is outside the table, which runs from 0 to {strongest:0.#} %; more glycol hardly protects further and cools worse, so choose a weaker mixture or use the maker's own table.");

    private static double? DensityInColumn(GlycolTable table, int column, double celsius)
    {
        if (celsius is < GlycolTable.DensityLowestCelsius or > GlycolTable.DensityHighestCelsius)
        {
            return null;
        }

        var rows = (celsius - GlycolTable.DensityLowestCelsius) / GlycolTable.DensityStepCelsius;
        var above = Math.Min((int)rows, table.Density.Length - 2);
        var share = rows - above;
        var density = share == 0 ? table.Density[above][column] : table.Density[above][column] + (share * (table.Density[above + 1][column] - table.Density[above][column]));
        return double.IsNaN(density) ? null : density;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
