using System.CommandLine;
using System.Text.Json.Nodes;

namespace Lastoff.Commands;

/// <summary><c>lastoff check MAP</c>: every fault of a map, with its line.</summary>
internal static class CheckCommand
{
    public static Command Build()
    {
        var map = new Argument<string>("MAP") { Description = "A map file, NAME.map.yaml." };
        var command = new Command("check", "Report every fault of a map, with its line.") { map, Output.Json };
        command.SetAction(parsed => Check(parsed.GetValue(map)!, parsed.GetValue(Output.Json)));
        return command;
    }

    private static int Check(string path, bool json)
    {
        var reading = InputFile.MapText(path);
        if (json)
        {
            Output.Write(new JsonObject
            {
                ["map"] = reading.Map?.Name,
                ["faults"] = Output.List(reading.Faults, fault => new JsonObject
                {
                    ["line"] = fault.Line,
                    ["field"] = fault.Field,
                    ["sentence"] = fault.Sentence,
                }),
            });
        }

        foreach (var fault in reading.Faults)
        {
            Console.Error.WriteLine(reading.Describe(fault));
        }

        if (reading.Map is not { } map)
        {
            return Failure.ExitCode;
        }

        if (!json)
        {
            Console.WriteLine($"{path}: no faults. {map.Parts.Count} parts, {map.Joints.Count} joints, {map.Supplies.Count} supplies, {map.Openings.Count} openings.");
        }

        return 0;
    }
}
