using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Planning.TwoHands;

namespace Lastoff.Commands;

/// <summary><c>lastoff plan MAP --off PART</c>: the way out and the way back.</summary>
internal static class PlanCommand
{
    public static Command Build()
    {
        var map = new Argument<string>("MAP") { Description = "A map file, NAME.map.yaml." };
        var off = new Option<string[]>("--off") { Description = "A part to take off and renew; may be given several times." };
        var undo = new Option<string[]>("--undo") { Description = "A joint to get at; may be given several times." };
        var from = new Option<string?>("--from") { Description = "A ledger: plan on from where that job stands." };
        var hands = new Option<string>("--hands") { Description = "How many people work on it, 1 or 2; 1 when left out.", DefaultValueFactory = _ => "1" };
        var command = new Command("plan", "Work out what comes off, in which order, and the way back.") { map, off, undo, from, hands, Output.Json };
        command.SetAction((parsed, stop) => Task.FromResult(Show(
            parsed.GetValue(map)!, parsed.GetValue(off) ?? [], parsed.GetValue(undo) ?? [], parsed.GetValue(from), parsed.GetValue(hands)!, parsed.GetValue(Output.Json), stop)));
        return command;
    }

    private static int Show(string mapPath, string[] off, string[] undo, string? ledgerPath, string hands, bool json, CancellationToken stop)
    {
        if (hands is not ("1" or "2"))
        {
            throw new Failure($"--hands {hands}: plans are made for one person or for two; write 1 or 2.");
        }

        var net = InputFile.Map(mapPath);
        var standing = ledgerPath is null ? null : Fold.Of(net, InputFile.Ledger(ledgerPath, net.Map));
        var goal = new Goal([.. off.Union(standing?.GoalParts ?? [])], [.. undo.Union(standing?.GoalJoints ?? [])]);
        if (hands == "2")
        {
            PlanForTwo.Show(net.Map, HandsPlanner.Make(net, goal, standing?.Done ?? net.Nothing, PlanLimits.Usual, stop) is var answer && answer.Found
                ? answer.Value
                : throw new Failure($"{mapPath}: {answer.Sentence}"), json);
            return 0;
        }

        var result = Planner.Make(net, goal, standing?.Done ?? net.Nothing, PlanLimits.Usual, stop);
        var plan = result.Plan ?? throw new Failure($"{mapPath}: {result.Refusal}");
        if (json)
        {
            Output.Write(ToJson(plan));
        }
        else
        {
            Print(net.Map, plan);
        }

        return 0;
    }

    private static void Print(Map map, Plan plan)
    {
        Heading(map);
        Print("Out", plan.Out);
        Print("Back", plan.Back);
        Console.WriteLine();
        Console.WriteLine($"Time: {Output.Minutes(plan.MinutesP50)} as a rule, {Output.Minutes(plan.MinutesP90)} nine times in ten. "
            + (plan.ProvenOptimal ? "No plan is quicker." : $"No plan takes less than {Output.Minutes(plan.LowerBoundMinutes)}. {plan.Unproven}"));
        Dues(map, plan);
    }

    internal static void Heading(Map map) => Console.WriteLine(map.Title + (map.Invented ? " (invented, and so are its figures)" : ""));

    /// <summary>What has to be there and be seen to, whoever does the steps.</summary>
    internal static void Dues(Map map, Plan plan)
    {
        List("New on the way back", plan.Renewals.Select(r => Count(r) + r.Name));
        List("Last looks", plan.LastLooks.GroupBy(l => l.HiddenBy).Select(hidden =>
            $"before {map.Parts.First(p => p.Id == hidden.Key).Name}: {string.Join("; ", hidden.Select(l => map.Joints.First(j => j.Id == l.Joint).Name))}"));
        List("Tools", plan.Tools.Select(t => t.ToString()));
        Console.WriteLine();
        Console.WriteLine("The maker's specification, local law and licensed practice come first.");
    }

    private static void Print(string way, IReadOnlyList<PlanStep> steps)
    {
        Console.WriteLine();
        Console.WriteLine($"{way}, {steps.Count} steps");
        for (var i = 0; i < steps.Count; i++)
        {
            var step = steps[i];
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{i + 1,4}  {Line(step)}"));
        }
    }

    internal static string Line(PlanStep step) =>
        $"{Word(step.Kind),-10} {step.Name}"
        + (step.Minutes > 0 ? $"  [{step.At.ToString().ToLowerInvariant()}, {step.Tool}; {Output.Minutes(step.Minutes)}]" : "")
        + (step.Caution is { } caution ? $"\n                 ! {caution}" : "");

    private static string Word(StepKind kind) => kind switch
    {
        StepKind.MakeSafe => "make safe",
        StepKind.LayAside => "lay aside",
        StepKind.TakeOff => "take off",
        StepKind.BringHome => "bring home",
        StepKind.LastLook => "last look",
        _ => kind.ToString().ToLowerInvariant(),
    };

    private static string Count(Renewal renewal) =>
        renewal is { Count: 1, Unit: "" } ? "" : string.Create(CultureInfo.InvariantCulture, $"{renewal.Count:0.##} {renewal.Unit}").Trim() + " ";

    private static void List(string heading, IEnumerable<string> items)
    {
        Console.WriteLine();
        Console.WriteLine(heading);
        foreach (var item in items.DefaultIfEmpty("none"))
        {
            Console.WriteLine($"  {item}");
        }
    }

    private static JsonObject ToJson(Plan plan)
    {
        var json = new JsonObject
        {
            ["minutes_p50"] = plan.MinutesP50,
            ["minutes_p90"] = plan.MinutesP90,
            ["lower_bound_minutes"] = plan.LowerBoundMinutes,
            ["proven_optimal"] = plan.ProvenOptimal,
            ["unproven"] = plan.Unproven,
            ["out"] = Output.List(plan.Out, ToJson),
            ["back"] = Output.List(plan.Back, ToJson),
        };
        AddDues(json, plan);
        return json;
    }

    internal static void AddDues(JsonObject json, Plan plan)
    {
        json["renewals"] = Output.List(plan.Renewals, renewal => new JsonObject
        {
            ["id"] = renewal.Id,
            ["name"] = renewal.Name,
            ["kind"] = renewal.Kind.ToString().ToLowerInvariant(),
            ["for"] = renewal.For,
            ["count"] = renewal.Count,
            ["unit"] = renewal.Unit,
        });
        json["last_looks"] = Output.List(plan.LastLooks, look => new JsonObject { ["joint"] = look.Joint, ["hidden_by"] = look.HiddenBy });
        json["tools"] = Output.List(plan.Tools, tool => JsonValue.Create(tool.ToString()));
        json["positions"] = Output.List(plan.Positions, position => JsonValue.Create(position.ToString().ToLowerInvariant()));
    }

    internal static JsonObject ToJson(PlanStep step) => new()
    {
        ["kind"] = Word(step.Kind).Replace(' ', '_'),
        ["target"] = step.Target,
        ["name"] = step.Name,
        ["tool"] = step.Tool.ToString(),
        ["at"] = step.At.ToString().ToLowerInvariant(),
        ["minutes"] = step.Minutes,
        ["set_up_minutes"] = step.SetUpMinutes,
        ["caution"] = step.Caution,
        ["why"] = step.Why,
    };
}
