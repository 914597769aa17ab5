using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Core.Fluids;

namespace Lastoff.Commands;

/// <summary><c>lastoff coolant flush</c>: drains and fillings that get the old fluid out with the least of the new.</summary>
internal static class CoolantFlushCommand
{
    private static readonly Option<string> Capacity = new("--capacity") { Description = "What the whole system holds, such as 10L.", Required = true };
    private static readonly Option<string> Drain = new("--drain") { Description = "The most that comes out in one drain.", Required = true };
    private static readonly Option<string> Purity = new("--purity") { Description = "How much of the fluid must be new at the end, percent.", Required = true };
    private static readonly Option<string> Target = new("--target") { Description = "The strength wanted at the end, percent by volume.", Required = true };
    private static readonly Option<string?> ReadyMix = Given.Option("--ready-mix", "Fill up at last with ready-mix of this strength instead of concentrate.");

    private static readonly Option<string?> Now = Given.Option("--now", "The strength of the old fluid, percent by volume: what is left of it counts at the end.");

    public static Command Build()
    {
        var command = new Command("flush", "Plan drains and fillings that get the old fluid out with the least of the new.") { Capacity, Drain, Purity, Target, ReadyMix, Now, Output.Json };
        command.SetAction(Show);
        return command;
    }

    private static int Show(ParseResult parsed)
    {
        var readyMix = parsed.GetValue(ReadyMix);
        var plan = FlushPlan.Of(
            Given.Litres("--capacity", parsed.GetValue(Capacity)!),
            Given.Litres("--drain", parsed.GetValue(Drain)!),
            100 - Given.Percent("--purity", parsed.GetValue(Purity)!),
            Given.Percent("--target", parsed.GetValue(Target)!),
            readyMix is null ? 100 : Given.Percent("--ready-mix", readyMix),
            parsed.GetValue(Now) is { } now ? Given.Percent("--now", now) : 0).OrFail();
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["drains"] = plan.Steps.Count,
                ["steps"] = Output.List(plan.Steps, step => new JsonObject
                {
                    ["drain_L"] = FluidOutput.Figure(step.DrainLitres),
                    ["pour_water_L"] = FluidOutput.Figure(step.WaterLitres),
                    [readyMix is null ? "pour_concentrate_L" : "pour_ready_mix_L"] = FluidOutput.Figure(step.StrongLitres),
                    ["old_percent"] = FluidOutput.Figure(step.OldPercent),
                }),
                ["water_L"] = FluidOutput.Figure(plan.WaterLitres),
                [readyMix is null ? "concentrate_L" : "ready_mix_L"] = FluidOutput.Figure(plan.StrongLitres),
                ["cautions"] = FluidOutput.Sentences(FluidCautions.Filling),
            });
            return 0;
        }

        foreach (var (step, i) in plan.Steps.Select((step, i) => (step, i)))
        {
            var strong = step.StrongLitres > 0 ? FormattableString.Invariant($"{step.StrongLitres:0.00} L of {(readyMix is null ? "concentrate" : "ready-mix")} and ") : "";
            FluidOutput.Line($"{i + 1}. Drain {step.DrainLitres:0.00} L, pour {strong}{step.WaterLitres:0.00} L of water, run warm with the heater open: {step.OldPercent:0.0} % is old fluid.");
        }

        FluidOutput.Line($"In all {plan.StrongLitres:0.00} L of {(readyMix is null ? "concentrate" : "ready-mix")} and {plan.WaterLitres:0.00} L of water.");
        FluidOutput.Cautions(FluidCautions.Filling);
        return 0;
    }
}
