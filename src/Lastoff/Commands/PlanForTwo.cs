using System.Globalization;
using System.Text.Json.Nodes;
using Lastoff.Core.Maps;
using Lastoff.Core.Planning;
using Lastoff.Core.Planning.TwoHands;

namespace Lastoff.Commands;

/// <summary><c>lastoff plan MAP --off PART --hands 2</c>: who of two people does what, and when.</summary>
internal static class PlanForTwo
{
    public static void Show(Map map, HandsPlan plan, bool json)
    {
        if (json)
        {
            Output.Write(ToJson(plan));
            return;
        }

        PlanCommand.Heading(map);
        Console.WriteLine("Two people, 1 and 2; minutes from the start, in the order in which the steps begin.");
        Print("Out", plan.Out);
        Print("Back", plan.Back);
        Console.WriteLine();
        Console.WriteLine($"Two people: {MinuteWords.Of(plan.MakespanMinutes)} as a rule, {MinuteWords.Of(plan.PersonMinutes)} of work in all. "
            + (plan.ProvenOptimal ? "No two are quicker." : $"No two take less than {MinuteWords.Of(plan.LowerBoundMinutes)}. {plan.Unproven}"));
        Console.WriteLine($"One person by the same rules: {MinuteWords.Of(plan.OnePersonMinutes)}; the second saves {MinuteWords.Of(plan.OnePersonMinutes - plan.MakespanMinutes)}.");
        PlanCommand.Dues(map, plan.Whole);
    }

    private static void Print(string way, IReadOnlyList<TimedStep> steps)
    {
        Console.WriteLine();
        Console.WriteLine($"{way}, {steps.Count} steps");
        foreach (var step in steps)
        {
            if (step.Step.WaitFor is { } waitFor)
            {
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{step.StartMinutes - step.Step.WaitMinutes,6:0.0} – {step.StartMinutes,5:0.0}  {step.Who}  {"wait",-10} {waitFor}"));
            }

            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{step.StartMinutes,6:0.0} – {step.EndMinutes,5:0.0}  {step.Who}  {PlanCommand.Line(step.Step)}"));
        }
    }

    private static JsonObject ToJson(HandsPlan plan)
    {
        var json = new JsonObject
        {
            ["hands"] = 2,
            ["makespan_minutes"] = plan.MakespanMinutes,
            ["lower_bound_minutes"] = plan.LowerBoundMinutes,
            ["proven_optimal"] = plan.ProvenOptimal,
            ["unproven"] = plan.Unproven,
            ["person_minutes"] = plan.PersonMinutes,
            ["one_person_minutes"] = plan.OnePersonMinutes,
            ["out"] = Output.List(plan.Out, ToJson),
            ["back"] = Output.List(plan.Back, ToJson),
        };
        PlanCommand.AddDues(json, plan.Whole);
        return json;
    }

    private static JsonObject ToJson(TimedStep step)
    {
        var json = PlanCommand.ToJson(step.Step);
        json["who"] = step.Who;
        json["start_minutes"] = step.StartMinutes;
        json["end_minutes"] = step.EndMinutes;
        return json;
    }
}
