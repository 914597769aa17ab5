using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Core.Fluids;
using Lastoff.Core.Proving;

namespace Lastoff.Commands;

/// <summary><c>lastoff hold</c>: whether a system under vacuum or pressure leaks, and how sure that is.</summary>
internal static class HoldCommand
{
    private static readonly Option<string> Volume = new("--volume") { Description = "What the drained system holds, such as 8L.", Required = true };
    private static readonly Option<string> Readings = new("--readings") { Description = "The readings: CSV with a header such as t_s,p_kPa_abs,T_C.", Required = true };
    private static readonly Option<string?> Kind = Given.Option("--kind", "vacuum or pressure; seen from the first reading if not given.");
    private static readonly Option<string?> Resolution = Given.Option("--resolution", "What the dial can be read to, such as 1kPa; the last digit written if not given.");
    private static readonly Option<string?> Class = Given.Option("--class", "The accuracy class on the dial, such as 1.6.");
    private static readonly Option<string?> Allow = Given.Option("--allow", "The leak that matters, such as 1e-4Pa·m3/s or 5sccm.");

    public static Command Build()
    {
        var air = new AirOptions();
        var command = new Command("hold", "Judge a vacuum or pressure hold: the leak, how sure it is, and how much longer to watch.")
        {
            Volume, Readings, Kind, Resolution, Class, Allow, Output.Json,
        };
        air.AddTo(command);
        command.SetAction(parsed => Show(parsed, air));
        return command;
    }

    private static int Show(ParseResult parsed, AirOptions air)
    {
        var ambient = air.Ambient(parsed);
        HoldKind? kind = parsed.GetValue(Kind)?.ToLowerInvariant() switch
        {
            null => null,
            "vacuum" => HoldKind.Vacuum,
            "pressure" => HoldKind.Pressure,
            var other => throw new Failure($"--kind “{other}” is not a hold; write vacuum or pressure."),
        };
        var hold = HoldReadings.From(InputFile.Readings(parsed.GetValue(Readings)!), ambient, kind).OrFail();
        var temperatures = hold.Readings.Select(reading => reading.Temperature).OfType<Temperature>().ToList();
        var at = temperatures.Count > 0 ? Temperature.FromKelvins(temperatures.Average(temperature => temperature.Kelvins)) : Temperature.FromCelsius(20);
        var test = HoldTest.Of(hold, new HoldSettings(
            Given.Litres("--volume", parsed.GetValue(Volume)!),
            ambient,
            parsed.GetValue(Resolution) is { } resolution ? Given.Pressure("--resolution", resolution) : null,
            parsed.GetValue(Class) is { } accuracy ? Given.Percent("--class", accuracy) : null,
            parsed.GetValue(Allow) is not { } allow ? null
                : LeakRate.TryParse(allow, at, out var leak) ? leak
                : throw new Failure($"--allow “{allow}” is not a leak; write a number with its unit: Pa·m3/s, mbar·L/s, sccm or mol/s."))).OrFail();

        IReadOnlyList<string> notes = air.AnyGiven(parsed)
            ? test.Notes
            : [.. test.Notes, "Neither barometer nor altitude was given; the air is taken to press as at sea level on a standard day, 101.325 kPa."];
        FluidOutput.Notes(notes);
        var cautions = test.Kind == HoldKind.Vacuum ? FluidCautions.VacuumHold : FluidCautions.PressureHold;
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["kind"] = test.Kind == HoldKind.Vacuum ? "vacuum" : "pressure",
                ["watched_s"] = FluidOutput.Figure(test.WatchedSeconds),
                ["leak_mol_per_s"] = FluidOutput.Figure(test.Rate.MolesPerSecond),
                ["leak_Pa_m3_per_s"] = FluidOutput.Figure(test.Throughput),
                ["leak_reference_C"] = FluidOutput.Figure(test.MeanTemperature.Celsius),
                ["leak_sccm"] = FluidOutput.Figure(test.Rate.Sccm),
                ["leak_sccm_reference"] = "0 °C, 101.325 kPa",
                ["ci_low"] = FluidOutput.Figure(test.Interval.Low),
                ["ci_high"] = FluidOutput.Figure(test.Interval.High),
                ["ci_unit"] = "Pa·m3/s",
                ["ci_confidence"] = HoldTest.ShownConfidence,
                ["allowed_Pa_m3_per_s"] = FluidOutput.Figure(test.AllowedThroughput),
                ["verdict"] = HoldWords.Verdict(test).ToLowerInvariant(),
                ["watch_longer_s"] = FluidOutput.Figure(Math.Ceiling(test.WatchLongerSeconds)),
                ["hot_coolant_drops_per_day"] = FluidOutput.Figure(test.Loss.DropsPerDay),
                ["hot_coolant_L_per_month"] = FluidOutput.Figure(test.Loss.LitresPerMonth),
                ["hot_coolant_L_per_month_high"] = FluidOutput.Figure(test.LossStillPossible.LitresPerMonth),
                ["notes"] = FluidOutput.Sentences(notes),
                ["cautions"] = FluidOutput.Sentences(cautions),
            });
            return 0;
        }

        Console.WriteLine($"{HoldWords.Verdict(test)}: {HoldWords.Meaning(test)}.");
        Console.WriteLine($"  {HoldWords.Figure(test)}");
        FluidOutput.Line($"  That is {test.Rate.MolesPerSecond:0.0e0} mol/s, or {test.Rate.Sccm:0.##} sccm (0 °C, 101.325 kPa), from {hold.Readings.Count} readings in {HoldWords.Minutes(test.WatchedSeconds)}.");
        Console.WriteLine($"  {HoldWords.InDrops(test)}");
        FluidOutput.Cautions(cautions);
        return 0;
    }
}
