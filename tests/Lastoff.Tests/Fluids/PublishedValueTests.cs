using System.Globalization;
using Lastoff.Core.Fluids;

namespace Lastoff.Tests.Fluids;

/// <summary>Every value in data/fluids/checks.txt, each with its source and its tolerance. A new check is a new line there.</summary>
public class PublishedValueTests
{
    public static TheoryData<string> Checks { get; } = [.. FluidData.Lines("checks.txt")];

    [Theory]
    [MemberData(nameof(Checks))]
    public void Agrees_with_the_published_value(string line)
    {
        var cells = line.Split('|', StringSplitOptions.TrimEntries);
        Assert.Equal(8, cells.Length);
        Assert.All(cells[6..], Assert.NotEmpty);
        var (published, tolerance) = (Number(cells[3]), Number(cells[5]));
        var ours = Ours(cells[1], cells[2].Split(' '));
        if (cells[0].EndsWith("TRAP", StringComparison.Ordinal))
        {
            Assert.False(Math.Abs(ours - published) <= tolerance, $"{ours} is as wrong as the misprint {published}");
        }
        else
        {
            // A hair for rows that lie exactly on their tolerance.
            Assert.Equal(published, ours, tolerance * (1 + 1e-9));
        }
    }

    private static double Ours(string quantity, string[] inputs) => quantity switch
    {
        "freezing_by_mass" => ByMass(inputs).Freezing.Celsius,
        "freezing_by_volume" => ByVolume(inputs).Freezing.Celsius,
        "freezing_second_curve" => ByMass(inputs).FreezingByMelinder.Celsius,
        "volume_percent" => ByMass(inputs).VolumePercent,
        "mass_percent" => ByVolume(inputs).MassPercent,
        "density" => ByVolume(inputs).DensityAt(Celsius(inputs[2]))!.Value,
        "expansion_litres" => ByVolume(inputs).Expansion(Celsius(inputs[2]), Celsius(inputs[3]))!.Value * Number(inputs[4]),
        "boiling" => ByVolume(inputs).BoilingAt(Pressure.FromKilopascals(Number(inputs[2]))).Celsius,
        "atmosphere" => Atmosphere.Standard(Number(inputs[0])).Pascals,
        "water_vapour" => WaterVapour.SaturationPressure(Temperature.FromKelvins(Number(inputs[0]))).Pascals / 1e6,
        "leak" => Leak([.. inputs.Select(Number)]),
        "sccm" => LeakRate.FromSccm(Number(inputs[0])).MolesPerSecond,
        "sccm_throughput" => LeakRate.FromSccm(Number(inputs[0])).ThroughputAt(Temperature.FromCelsius(0)),
        "air_left" => AtSeaLevel(inputs[0]).AirLeftShare * 100,
        "absolute" => AtSeaLevel(inputs[0]).Absolute.Kilopascals,
        "boils_at_vacuum" => WaterVapour.BoilingPoint(AtSeaLevel(inputs[0]).Absolute).Celsius,
        "student_t" => StudentT.Quantile(Number(inputs[0]), (int)Number(inputs[1])),
        "norris" => Norris(inputs[0]),
        _ => throw new ArgumentOutOfRangeException(nameof(quantity), quantity, "This quantity has no check."),
    };

    private static Coolant ByMass(string[] inputs) => Coolant.FromMassPercent(Glycols(inputs[0]), Number(inputs[1])).Value!;

    private static Coolant ByVolume(string[] inputs) => Coolant.FromVolumePercent(Glycols(inputs[0]), Number(inputs[1])).Value!;

    private static Glycol Glycols(string name) => name == "EG" ? Glycol.Ethylene : Glycol.Propylene;

    private static Temperature Celsius(string text) => Temperature.FromCelsius(Number(text));

    private static VacuumReading AtSeaLevel(string inchesOfMercury) =>
        VacuumFill.Of(Atmosphere.SeaLevel, Temperature.FromCelsius(20)).Value!.Reading(Pressure.FromInchesOfMercury(Number(inchesOfMercury))).Value!;

    // Litres, pascals before and after, kelvins, seconds.
    private static double Leak(double[] example)
    {
        var temperature = Temperature.FromKelvins(example[3]);
        var hold = new HoldReadings(
            HoldKind.Vacuum,
            [new(0, Pressure.FromPascals(example[1]), temperature), new(example[4], Pressure.FromPascals(example[2]), temperature)],
            WrittenStep: 100, TemperatureUncertain: 0, Notes: []);
        return HoldTest.Of(hold, new HoldSettings(example[0], Atmosphere.SeaLevel)).Value!.Rate.MolesPerSecond;
    }

    private static double Norris(string what)
    {
        var (x, y) = FluidData.Norris();
        var fit = LineFit.Of(x, y);
        return what switch
        {
            "slope" => fit.Slope,
            "intercept" => fit.Intercept,
            "slope_deviation" => fit.SlopeDeviation,
            _ => fit.ResidualDeviation,
        };
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
