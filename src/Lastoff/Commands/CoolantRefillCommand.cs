using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Core.Fluids;

namespace Lastoff.Commands;

/// <summary><c>lastoff coolant refill</c>: what to pour after a drain to reach a strength.</summary>
internal static class CoolantRefillCommand
{
    private static readonly Option<string> Glycol = new("--glycol") { Description = "EG or PG, as the label says.", Required = true };
    private static readonly Option<string> Capacity = new("--capacity") { Description = "What the whole system holds, such as 10L.", Required = true };
    private static readonly Option<string> Drained = new("--drained") { Description = "What came out, measured.", Required = true };
    private static readonly Option<string> Now = new("--now") { Description = "The strength of what stayed in, percent by volume.", Required = true };
    private static readonly Option<string> Target = new("--target") { Description = "The strength wanted, percent by volume.", Required = true };
    private static readonly Option<string?> ReadyMix = Given.Option("--ready-mix", "Pour ready-mix of this strength instead of concentrate.");
    private static readonly Option<string[]> Bottles = new("--bottle") { Description = "A size the fluid is sold in, such as 5L; may be given again.", AllowMultipleArgumentsPerToken = false };
    private static readonly Option<string?> LabelInside = Given.Option("--label-inside", "What the label of the coolant inside says, such as OAT.");
    private static readonly Option<string?> LabelPoured = Given.Option("--label-poured", "What the label of the one to pour says.");

    public static Command Build()
    {
        var command = new Command("refill", "Say what to pour after a drain to reach a strength, and what to buy.")
        {
            Glycol, Capacity, Drained, Now, Target, ReadyMix, Bottles, LabelInside, LabelPoured, Output.Json,
        };
        command.SetAction(Show);
        return command;
    }

    private static int Show(ParseResult parsed)
    {
        var glycol = Given.Glycol("--glycol", parsed.GetValue(Glycol)!);
        var readyMix = parsed.GetValue(ReadyMix);
        var refill = Refill.Of(
            Given.Litres("--capacity", parsed.GetValue(Capacity)!),
            Given.Litres("--drained", parsed.GetValue(Drained)!),
            Given.Percent("--now", parsed.GetValue(Now)!),
            Given.Percent("--target", parsed.GetValue(Target)!),
            readyMix is null ? 100 : Given.Percent("--ready-mix", readyMix)).OrFail();
        var result = Coolant.FromVolumePercent(glycol, refill.ResultPercent).OrFail();
        var strong = readyMix is null ? "concentrate" : FormattableString.Invariant($"ready-mix of {refill.StrengthPercent:0.#} %");
        var strongLitres = refill.Plan?.StrongLitres ?? refill.Strong;
        var sizes = (parsed.GetValue(Bottles) ?? []).Select(size => Given.Litres("--bottle", size)).ToList();
        if (sizes.Any(size => size is < Containers.LeastLitres or > Containers.MostLitres) || (sizes.Count > 0 && strongLitres > Containers.MostLitres))
        {
            throw new Failure($"--bottle: {Containers.OutOfRange}");
        }

        var toBuy = sizes.Count > 0 ? Containers.ToBuy(strongLitres, sizes) : null;
        var warning = parsed.GetValue(LabelInside) is { } inside && parsed.GetValue(LabelPoured) is { } poured ? CoolantLabel.Warning(inside, poured) : null;

        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["left_in_L"] = FluidOutput.Figure(refill.LeftLitres),
                ["pour_concentrate_L"] = FluidOutput.Figure(readyMix is null ? refill.Strong : 0),
                ["pour_ready_mix_L"] = FluidOutput.Figure(readyMix is null ? 0 : refill.Strong),
                ["pour_water_L"] = FluidOutput.Figure(refill.Water),
                ["resulting_volume_percent"] = FluidOutput.Figure(refill.ResultPercent),
                ["resulting_plus_minus_percent"] = FluidOutput.Figure(refill.ResultPlusMinusPercent),
                ["resulting_freezing_C"] = FluidOutput.Figure(result.Freezing.Celsius),
                ["reachable"] = refill.Reachable,
                ["drains_needed"] = refill.Plan?.Steps.Count,
                ["drains_needed_to_within_percent"] = refill.NeverExactly ? Refill.NearPercent : 0,
                ["steps"] = refill.Plan is null ? null : Output.List(refill.Plan.Steps, step => new JsonObject
                {
                    ["drain_L"] = FluidOutput.Figure(step.DrainLitres),
                    ["pour_water_L"] = FluidOutput.Figure(step.WaterLitres),
                    [readyMix is null ? "pour_concentrate_L" : "pour_ready_mix_L"] = FluidOutput.Figure(step.StrongLitres),
                    ["volume_percent"] = FluidOutput.Figure(step.Percent),
                }),
                ["buy"] = toBuy is null ? null : Output.List(sizes.Zip(toBuy), pair => new JsonObject { ["size_L"] = FluidOutput.Figure(pair.First), ["count"] = pair.Second }),
                ["mixing_warning"] = warning,
                ["cautions"] = FluidOutput.Sentences(FluidCautions.Filling),
            });
            return 0;
        }

        FluidOutput.Line($"{refill.LeftLitres:0.##} L of {refill.NowPercent:0.#} % stayed in. Pour {refill.Strong:0.00} L of {strong} and {refill.Water:0.00} L of water.");
        FluidOutput.Line($"  That makes {refill.ResultPercent:0.0} % by volume, give or take {refill.ResultPlusMinusPercent:0.0}; it freezes at {result.Freezing.Celsius:0} °C, give or take {result.FreezingPlusMinusKelvins:0.#} °C.");
        if (refill.NotReached is { } sentence)
        {
            Console.WriteLine($"  {sentence}");
            foreach (var step in refill.Plan?.Steps.Skip(1) ?? [])
            {
                var fluid = step.StrongLitres > 0 ? $"of {strong}" : "of water";
                FluidOutput.Line($"  Then drain {step.DrainLitres:0.00} L and pour {step.DrainLitres:0.00} L {fluid}: {step.Percent:0.0} %.");
            }

            if (refill.Plan is { Steps.Count: > 1 } plan)
            {
                FluidOutput.Line($"  In all {plan.StrongLitres:0.00} L of {strong} and {plan.WaterLitres:0.00} L of water; no drains of at most {refill.DrainedLitres:0.##} L get there with less. Run it warm with the heater open before each drain, and let it cool.");
            }
        }

        if (toBuy is not null)
        {
            var bought = sizes.Zip(toBuy).Where(pair => pair.Second > 0).Select(pair => FormattableString.Invariant($"{pair.Second} of {pair.First:0.##} L"));
            Console.WriteLine($"  Buy {(strongLitres > 0 ? string.Join(", ", bought) : "nothing")}.");
        }

        if (warning is not null)
        {
            Console.WriteLine($"  {warning}");
        }

        Console.WriteLine("  Use the water the maker asks for, distilled as a rule, and read the mix again when warm and stirred through.");
        FluidOutput.Cautions(FluidCautions.Filling);
        return 0;
    }
}
