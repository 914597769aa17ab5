using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Core.Fluids;

namespace Lastoff.Commands;

/// <summary><c>lastoff coolant mix</c>: where a mixture freezes and boils, its density and how much it swells.</summary>
internal static class CoolantMixCommand
{
    private static readonly Option<string> Glycol = new("--glycol") { Description = "EG or PG, as the label says.", Required = true };
    private static readonly Option<string?> VolumePercent = Given.Option("--volume-percent", "The strength, percent glycol by volume.");
    private static readonly Option<string?> MassPercent = Given.Option("--mass-percent", "Or by mass.");
    private static readonly Option<string?> Freezing = Given.Option("--freezing", "Or the freezing point a refractometer shows on this glycol's scale, such as -25degC.");
    private static readonly Option<string?> Gravity = Given.Option("--specific-gravity", "Or what a hydrometer shows, such as 1.065; needs --at.");
    private static readonly Option<string?> At = Given.Option("--at", "The coolant's temperature at the hydrometer, such as 30degC.");
    private static readonly Option<string?> Cap = Given.Option("--cap", "What is printed on the pressure cap, such as 103kPa; an open system if not given.");
    private static readonly Option<string?> Capacity = Given.Option("--capacity", "What the system holds, to say how much it swells.");
    private static readonly Option<string?> From = Given.Option("--from", "Swelling from this temperature; 20degC if not given.");
    private static readonly Option<string?> To = Given.Option("--to", "To this one; 95degC if not given.");

    public static Command Build()
    {
        var air = new AirOptions();
        var command = new Command("mix", "Say where a mixture freezes and boils, its density and how much it swells.")
        {
            Glycol, VolumePercent, MassPercent, Freezing, Gravity, At, Cap, Capacity, From, To, Output.Json,
        };
        air.AddTo(command);
        command.SetAction(parsed => Show(parsed, air.Ambient(parsed)));
        return command;
    }

    private static int Show(ParseResult parsed, Pressure ambient)
    {
        var (coolant, read) = Read(parsed);
        var cap = parsed.GetValue(Cap) is { } text ? Given.Pressure("--cap", text) : Pressure.Zero;
        if (cap.Kilopascals > 300)
        {
            throw new Failure($"--cap {cap}: caps hold between 30 and 250 kPa; check the number and its unit.");
        }

        var boiling = coolant.BoilingAt(ambient + cap);
        var density = coolant.DensityAt(Temperature.FromCelsius(20));
        var from = parsed.GetValue(From) is { } cold ? Given.Temperature("--from", cold) : Temperature.FromCelsius(20);
        var to = parsed.GetValue(To) is { } hot ? Given.Temperature("--to", hot) : Temperature.FromCelsius(95);
        var swells = coolant.Expansion(from, to)
            ?? throw new Failure($"No density is known for this mixture at {(coolant.DensityAt(from) is null ? from : to)}; choose --from and --to between its freezing point and 100 °C.");
        double? capacity = parsed.GetValue(Capacity) is { } holds ? Given.Litres("--capacity", holds) : null;

        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["glycol"] = coolant.Glycol == Core.Fluids.Glycol.Ethylene ? "EG" : "PG",
                ["mass_percent"] = FluidOutput.Figure(coolant.MassPercent),
                ["volume_percent"] = FluidOutput.Figure(coolant.VolumePercent),
                ["volume_percent_low"] = FluidOutput.Figure(read?.LowPercent),
                ["volume_percent_high"] = FluidOutput.Figure(read?.HighPercent),
                ["freezing_C"] = FluidOutput.Figure(coolant.Freezing.Celsius),
                ["freezing_second_curve_C"] = FluidOutput.Figure(coolant.FreezingByMelinder.Celsius),
                ["freezing_plus_minus_K"] = FluidOutput.Figure(coolant.FreezingPlusMinusKelvins),
                ["boiling_C"] = FluidOutput.Figure(boiling.Celsius),
                ["boiling_plus_minus_K"] = Coolant.BoilingPlusMinusKelvins,
                ["boiling_at_kPa_abs"] = FluidOutput.Figure((ambient + cap).Kilopascals),
                ["density_20C_kg_m3"] = FluidOutput.Figure(density),
                ["expansion_share"] = FluidOutput.Figure(swells),
                ["expansion_from_C"] = FluidOutput.Figure(from.Celsius),
                ["expansion_to_C"] = FluidOutput.Figure(to.Celsius),
                ["expansion_L"] = FluidOutput.Figure(capacity * swells),
                ["cautions"] = FluidOutput.Sentences(FluidCautions.Filling),
            });
            return 0;
        }

        FluidOutput.Line($"{coolant.VolumePercent:0.0} % {Coolant.Name(coolant.Glycol)} by volume, {coolant.MassPercent:0.0} % by mass.");
        if (read is not null)
        {
            FluidOutput.Line($"  As well as that can be read: {read.LowPercent:0} to {read.HighPercent:0} % by volume.");
        }

        FluidOutput.Line($"  Freezes at {coolant.Freezing.Celsius:0.0} °C ({coolant.Freezing.Fahrenheit:0} °F), give or take {coolant.FreezingPlusMinusKelvins:0.#} °C (a second curve says {coolant.FreezingByMelinder.Celsius:0.0} °C).");
        FluidOutput.Line($"  Boils at {boiling.Celsius:0} °C ({boiling.Fahrenheit:0} °F), give or take {Coolant.BoilingPlusMinusKelvins} °C, under {(ambient + cap).Kilopascals:0} kPa absolute.");
        if (density is not null)
        {
            FluidOutput.Line($"  Weighs {density / 1000:0.000} kg a litre at 20 °C.");
        }

        FluidOutput.Line($"  Swells by {swells * 100:0.0} % from {from} to {to}{(capacity is { } litres ? FormattableString.Invariant($": {litres * swells:0.00} L of {litres:0.##} L") : "")}.");
        FluidOutput.Cautions(FluidCautions.Filling);
        return 0;
    }

    private static (Coolant Coolant, StrengthReading? Read) Read(ParseResult parsed)
    {
        if (new[] { VolumePercent, MassPercent, Freezing, Gravity }.Count(option => parsed.GetValue(option) is not null) != 1)
        {
            throw new Failure("Say once how strong the mixture is: --volume-percent, --mass-percent, --freezing (refractometer) or --specific-gravity (hydrometer).");
        }

        var glycol = Given.Glycol("--glycol", parsed.GetValue(Glycol)!);
        if (parsed.GetValue(VolumePercent) is { } volume)
        {
            return (Coolant.FromVolumePercent(glycol, Given.Percent("--volume-percent", volume)).OrFail(), null);
        }

        if (parsed.GetValue(MassPercent) is { } mass)
        {
            return (Coolant.FromMassPercent(glycol, Given.Percent("--mass-percent", mass)).OrFail(), null);
        }

        var reading = parsed.GetValue(Freezing) is { } freezing
            ? StrengthReading.OfRefractometer(glycol, Given.Temperature("--freezing", freezing)).OrFail()
            : StrengthReading.OfHydrometer(glycol, Given.Number("--specific-gravity", parsed.GetValue(Gravity)!), parsed.GetValue(At) is { } warm
                ? Given.Temperature("--at", warm)
                : throw new Failure("A hydrometer reading needs the coolant's temperature, because warm coolant is lighter; give --at.")).OrFail();
        return (reading.Coolant, reading);
    }
}
