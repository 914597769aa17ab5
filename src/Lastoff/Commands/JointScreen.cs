using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Lastoff.Core.Joints;

namespace Lastoff.Commands;

/// <summary><c>lastoff joint screen</c>: the nut-factor form, for screening.</summary>
internal static class JointScreen
{
    private static readonly BoltOptions Bolt = new();
    private static readonly Option<double?> Factor = new("--nut-factor") { Description = "K in T = K d F, when it is known; else the condition's published one is taken." };
    private static readonly Option<string?> TorqueOption = new("--torque") { Description = "The torque to find the preload of." };
    private static readonly Option<string?> PreloadOption = new("--preload") { Description = "The preload to find the torque of." };

    public static Command Build()
    {
        var command = new Command("screen", "Preload and torque by a nut factor: screening only, with its scatter.");
        Bolt.AddThreadTo(command);
        Bolt.AddConditionTo(command);
        foreach (var option in (Option[])[Factor, TorqueOption, PreloadOption, Output.Json])
        {
            command.Options.Add(option);
        }

        command.SetAction(Show);
        return command;
    }

    private static int Show(ParseResult parsed)
    {
        Bolt.RefuseWhatIsNotPlain(parsed);
        var thread = Bolt.Thread(parsed);
        var condition = Bolt.Condition(parsed);
        var factor = NutFactor.Of(parsed.GetValue(Factor) ?? condition?.NutFactor
            ?? throw new Failure(condition is null ? "--nut-factor: give a nut factor, or the --condition of the threads." : $"--condition: {condition.Sentence}")).OrFail("--nut-factor");
        var preload = parsed.Read(PreloadOption, Measure.Force_N);
        var torque = parsed.ReadTorque(TorqueOption) ?? (preload is { } pull ? factor.TorqueFor(thread, pull) : throw new Failure("--torque: give a torque, or a --preload to find it for."));
        var scattered = factor.PreloadScattered_N(thread, torque);
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["thread"] = thread.Designation,
                ["nut_factor"] = factor.K,
                ["torque_Nm"] = torque.NewtonMetres,
                ["preload_N"] = factor.Preload_N(thread, torque),
                ["preload_low_N"] = scattered.Low,
                ["preload_high_N"] = scattered.High,
                ["screening_only"] = true,
                ["condition"] = condition?.Sentence,
                ["guidance"] = JointCommand.Guidance,
            });
            return 0;
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{thread} with a nut factor of {factor.K:0.0##}: {OptionText.Words(torque)} pulls about {OptionText.Kilonewtons(factor.Preload_N(thread, torque))}, and from {OptionText.Kilonewtons(scattered.Low)} to {OptionText.Kilonewtons(scattered.High)} with its scatter."));
        Console.WriteLine(NutFactor.ScreeningOnly);
        if (condition is not null)
        {
            Console.WriteLine(condition.Sentence);
        }

        Console.WriteLine(JointCommand.Guidance);
        return 0;
    }
}
