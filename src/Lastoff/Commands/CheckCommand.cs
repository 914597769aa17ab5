using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Commands;

/// <summary><c>lastoff check MAP</c>: every fault of a map, with its line; of a map without any, what is worth a second look.</summary>
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
        var advice = (reading.Map?.Joints ?? []).Select(JointAdvice.Of).ToList();
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
                ["advice"] = Output.List(advice.SelectMany(Sentences), said => new JsonObject
                {
                    ["line"] = said.Joint.Line,
                    ["joint"] = said.Joint.Id,
                    ["kind"] = said.Kind,
                    ["sentence"] = said.Sentence,
                    ["maker_Nm"] = said.Joint.Torque?.NewtonMetres,
                }),
                ["guidance"] = Judgement.MakerFirst,
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
            Advise(path, advice);
        }

        return 0;
    }

    /// <summary>Advice is no fault: the map is good as it is, and its figures stand.</summary>
    private static void Advise(string path, IReadOnlyList<JointAdvice> advice)
    {
        if (advice.All(joint => joint.Judgement is null && joint.WhyNot is null))
        {
            return;
        }

        var disagreeing = advice.Count(joint => joint.Disagreements.Count > 0);
        Console.WriteLine($"{advice.Count(joint => joint.Judgement is not null)} of {advice.Count} joints state enough to hold their torque against computed limits; {disagreeing} {(disagreeing == 1 ? "disagrees" : "disagree")}.");
        foreach (var (joint, _, sentence) in advice.SelectMany(Sentences))
        {
            Console.WriteLine($"{path}, line {joint.Line}, {joint.Id}: {sentence}");
        }

        Console.WriteLine(Judgement.MakerFirst);
    }

    private static IEnumerable<(Joint Joint, string Kind, string Sentence)> Sentences(JointAdvice advice) =>
    [
        .. advice.Disagreements.Select(finding => (advice.Joint, Words<FindingKind>.Of(finding.Kind), finding.Sentence)),
        .. advice.WhyNot is { } why ? [(advice.Joint, "not_computed", why)] : Array.Empty<(Joint, string, string)>(),
    ];
}
