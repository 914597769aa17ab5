using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Core.Fluids;

namespace Lastoff.Commands;

/// <summary><c>lastoff dilution</c>: what stays of one fluid in another after each change, and what an oil figure suggests.</summary>
internal static class DilutionCommand
{
    private static readonly Option<string> Sump = new("--sump") { Description = "All the fluid in the circuit, filter, cooler and lines with it, such as 5L.", Required = true };
    private static readonly Option<string[]> Retained = new("--retained") { Description = "What stays when drained; give it again for filter, cooler, lines.", Required = true };
    private static readonly Option<string> Start = new("--start") { Description = "The contamination now, such as 20000ppm or 2%.", Required = true };
    private static readonly Option<string> Target = new("--target") { Description = "The level to get below, such as 500ppm.", Required = true };
    private static readonly Option<string?> Water = Given.Option("--water", "Water found in the oil by a laboratory, such as 800ppm.");
    private static readonly Option<string?> Glycol = Given.Option("--glycol-found", "Glycol found in the oil by a laboratory, such as 300ppm.");

    public static Command Build()
    {
        var command = new Command("dilution", "Say how many changes thin one fluid in another to a level.") { Sump, Retained, Start, Target, Water, Glycol, Output.Json };
        command.SetAction(Show);
        return command;
    }

    private static int Show(ParseResult parsed)
    {
        var dilution = Dilution.Of(
            Given.Litres("--sump", parsed.GetValue(Sump)!),
            parsed.GetValue(Retained)!.Sum(text => Given.Litres("--retained", text)),
            Given.PartsPerMillion("--start", parsed.GetValue(Start)!),
            Given.PartsPerMillion("--target", parsed.GetValue(Target)!)).OrFail();
        var water = parsed.GetValue(Water) is { } wet ? OilBand.OfWater(Given.PartsPerMillion("--water", wet)) : null;
        var glycol = parsed.GetValue(Glycol) is { } sweet ? OilBand.OfGlycol(Given.PartsPerMillion("--glycol-found", sweet)) : null;
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["changes"] = dilution.Changes,
                ["remaining_ppm"] = Output.List(dilution.RemainingPpm, ppm => FluidOutput.Figure(ppm)),
                ["water_band"] = Band(water),
                ["glycol_band"] = Band(glycol),
                ["cautions"] = FluidOutput.Sentences(FluidCautions.OilChange),
            });
            return 0;
        }

        Console.WriteLine(dilution.Changes switch
        {
            0 => "It is at that level already: no change needed for it.",
            1 => "One change:",
            _ => $"{dilution.Changes} changes:",
        });
        foreach (var (ppm, i) in dilution.RemainingPpm.Select((ppm, i) => (ppm, i)))
        {
            FluidOutput.Line($"  after change {i + 1}: {ppm:0} ppm");
        }

        if (dilution.Changes > 0)
        {
            Console.WriteLine("  Run it warm before each drain so that it is stirred through, fit a new filter each time, and sample after the last.");
        }

        foreach (var (name, band) in new[] { ("Water", water), ("Glycol", glycol) })
        {
            if (band is not null)
            {
                Console.WriteLine($"  {name}: {band.Name}. {band.Sentence}");
            }
        }

        FluidOutput.Cautions(FluidCautions.OilChange);
        return 0;
    }

    private static JsonObject? Band(OilBand? band) => band is null ? null : new JsonObject { ["name"] = band.Name, ["sentence"] = band.Sentence };
}
