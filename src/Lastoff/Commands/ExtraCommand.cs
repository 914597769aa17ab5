using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Core.Planning;

namespace Lastoff.Commands;

/// <summary><c>lastoff extra MAP --off PART</c>: what else could be renewed while the machine is open, and what it saves.</summary>
internal static class ExtraCommand
{
    public static Command Build()
    {
        var map = new Argument<string>("MAP") { Description = "A map file, NAME.map.yaml." };
        var off = new Option<string[]>("--off") { Description = "A part that comes off anyway; may be given several times." };
        var command = new Command("extra", "Say of every other part what it takes alone, what it adds to this strip, and what is saved.") { map, off, Output.Json };
        command.SetAction((parsed, stop) => Task.FromResult(Show(parsed.GetValue(map)!, parsed.GetValue(off) ?? [], parsed.GetValue(Output.Json), stop)));
        return command;
    }

    private static int Show(string mapPath, string[] off, bool json, CancellationToken stop)
    {
        var net = InputFile.Map(mapPath);
        var result = Extras.Of(net, Goal.Renewing(off), net.Nothing, PlanLimits.Quick, stop);
        var extras = result.Extras ?? throw new Failure($"{mapPath}: {result.Refusal}");
        if (json)
        {
            Output.Write(new JsonObject { ["extras"] = Output.List(extras, ToJson) });
            return 0;
        }

        Console.WriteLine(net.Map.Title + (net.Map.Invented ? " (invented, and so are its figures)" : ""));
        Console.WriteLine($"{"alone",12} {"in this strip",14} {"saved",12}  part");
        foreach (var extra in extras)
        {
            Console.WriteLine($"{MinuteWords.Of(extra.MinutesAlone),12} {MinuteWords.Of(extra.MinutesInStrip),14} {MinuteWords.Of(extra.MinutesSaved),12}  {extra.Name} ({extra.Part})");
        }

        return 0;
    }

    private static JsonObject ToJson(Extra extra) => new()
    {
        ["part"] = extra.Part,
        ["name"] = extra.Name,
        ["minutes_alone"] = extra.MinutesAlone,
        ["minutes_in_strip"] = extra.MinutesInStrip,
        ["minutes_saved"] = extra.MinutesSaved,
    };
}
