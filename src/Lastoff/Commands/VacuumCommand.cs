using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Core.Fluids;

namespace Lastoff.Commands;

/// <summary><c>lastoff vacuum</c>: how deep a vacuum fill can go here and today, and the air that stays.</summary>
internal static class VacuumCommand
{
    private static readonly Option<string> Coolant = new("--coolant") { Description = "The temperature of engine and coolant, such as 20C.", Required = true };
    private static readonly Option<string?> Gauge = Given.Option("--gauge", "The vacuum the gauge shows, such as 22inHg, to have it judged.");
    private static readonly Option<string?> Volume = Given.Option("--volume", "What the drained system holds, to say how much it takes up.");

    public static Command Build()
    {
        var air = new AirOptions();
        var command = new Command("vacuum", "Say how deep a vacuum fill can go here and today, and how much air stays.") { Coolant, Gauge, Volume, Output.Json };
        air.AddTo(command);
        command.SetAction(parsed => Show(parsed, air.Ambient(parsed)));
        return command;
    }

    private static int Show(ParseResult parsed, Pressure ambient)
    {
        var fill = VacuumFill.Of(ambient, Given.Temperature("--coolant", parsed.GetValue(Coolant)!)).OrFail();
        var reached = parsed.GetValue(Gauge) is { } text ? fill.Reading(Given.Pressure("--gauge", text)).OrFail() : null;
        var reading = reached ?? new VacuumReading(fill, fill.DeepestUseful);
        double? litres = parsed.GetValue(Volume) is { } volume ? Given.Litres("--volume", volume) : null;

        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["ambient_kPa_abs"] = FluidOutput.Figure(ambient.Kilopascals),
                ["deepest_useful_kPa_abs"] = FluidOutput.Figure(fill.DeepestUseful.Kilopascals),
                ["gauge_inHg"] = FluidOutput.Figure(fill.DeepestUsefulOnGauge.InchesOfMercury),
                ["fill_from_inHg"] = FluidOutput.Figure(fill.FillFromOnGauge.InchesOfMercury),
                ["reading_kPa_abs"] = FluidOutput.Figure(reached?.Absolute.Kilopascals),
                ["verdict"] = reached is null ? null : Word(reached.Judgement),
                ["air_left_percent"] = FluidOutput.Figure(reading.AirLeftShare * 100),
                ["air_left_if_wet_percent"] = FluidOutput.Figure(reading.AirLeftShareIfWet * 100),
                ["take_up_L"] = FluidOutput.Figure(litres * (1 - reading.AirLeftShare)),
                ["top_up_L"] = FluidOutput.Figure(litres * reading.AirLeftShare),
                ["cautions"] = FluidOutput.Sentences(FluidCautions.VacuumFilling),
            });
            return 0;
        }

        FluidOutput.Line($"The air presses with {ambient.Kilopascals:0.0} kPa here: a perfect vacuum would read {ambient.InchesOfMercury:0.0} inHg.");
        FluidOutput.Line($"  Begin to fill at {fill.FillFromOnGauge.InchesOfMercury:0.0} inHg or deeper. At {fill.DeepestUsefulOnGauge.InchesOfMercury:0.0} inHg water boils at {fill.Coolant}: no deeper than that.");
        if (reached is not null)
        {
            FluidOutput.Line($"  The gauge's reading is {reached.Absolute.Kilopascals:0.0} kPa absolute: {Sentence(reached.Judgement)}");
        }

        FluidOutput.Line($"  {(reached is null ? "At the deepest" : "From there")}, at most {reading.AirLeftShare * 100:0.0} % of the volume stays air ({reading.AirLeftShareIfWet * 100:0.0} % if it is wet inside).");
        if (litres is { } holds)
        {
            FluidOutput.Line($"  It takes up {holds * (1 - reading.AirLeftShare):0.0} L or more; expect to top up {holds * reading.AirLeftShare:0.0} L, less if it is wet inside.");
        }

        Console.WriteLine("  Shut the valve and hold first: see `lastoff hold`.");
        FluidOutput.Cautions(FluidCautions.VacuumFilling);
        return 0;
    }

    private static string Word(VacuumJudgement judgement) => judgement switch
    {
        VacuumJudgement.Deep => "deep enough",
        VacuumJudgement.Shallow => "too shallow",
        _ => "past boiling",
    };

    private static string Sentence(VacuumJudgement judgement) => judgement switch
    {
        VacuumJudgement.Deep => "deep enough to fill.",
        VacuumJudgement.Shallow => "too shallow; look for a leak, a closed heater valve or a weak pump, or expect that much to top up.",
        _ => "past where water boils, so the pump draws steam or the gauge reads deep; let in a little air and check the gauge's zero.",
    };
}
