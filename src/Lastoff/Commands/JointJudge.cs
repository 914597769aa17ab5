using System.CommandLine;
using System.Text.Json.Nodes;
using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Commands;

/// <summary><c>lastoff joint judge</c>: the maker's figure beside the computed limits.</summary>
internal static class JointJudge
{
    private static readonly BoltOptions Bolt = new();
    private static readonly BossOptions Boss = new();
    private static readonly Option<string> Maker = new("--torque") { Description = "The maker's figure.", Required = true };
    private static readonly Option<string?> Hold = new("--hold") { Description = "The clamp force the joint needs, such as 8kN." };

    public static Command Build()
    {
        var command = new Command("judge", "Hold the maker's figure against what would yield, strip or not hold.");
        Bolt.AddAllTo(command);
        Boss.AddTo(command);
        foreach (var option in (Option[])[Maker, Hold, Output.Json])
        {
            command.Options.Add(option);
        }

        command.SetAction(Show);
        return command;
    }

    private static int Show(ParseResult parsed)
    {
        var bolt = Bolt.Tightening(parsed);
        var maker = Torque.FromNewtonMetres(OptionText.Read(Maker.Name, parsed.GetValue(Maker)!, Measure.Torque_Nm));
        var stripping = Boss.Given(parsed) ? Boss.Stripping(parsed, bolt.Thread, bolt.Strength.Tensile_MPa).Stripping : null;
        var judgement = Judgement.Of(maker, bolt, stripping, parsed.Read(Hold, Measure.Force_N));
        var condition = Bolt.Condition(parsed)?.Sentence;
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["use_Nm"] = judgement.Maker.NewtonMetres,
                ["agrees"] = judgement.Agrees,
                ["findings"] = Output.List(judgement.Findings, finding => new JsonObject
                {
                    ["kind"] = Words<FindingKind>.Of(finding.Kind),
                    ["sentence"] = finding.Sentence,
                }),
                ["preload_low_N"] = judgement.Tension.PreloadLow_N,
                ["preload_high_N"] = judgement.Tension.PreloadHigh_N,
                ["utilisation"] = judgement.Tension.Utilisation,
                ["yield_limit_Nm"] = judgement.YieldLimit.NewtonMetres,
                ["strip_limit_Nm"] = judgement.StripLimit?.NewtonMetres,
                ["hold_limit_Nm"] = judgement.HoldLimit?.NewtonMetres,
                ["condition"] = condition,
                ["guidance"] = Judgement.MakerFirst,
            });
            return 0;
        }

        Console.WriteLine($"Use the maker's {OptionText.Words(maker)}. Computed limit for {bolt.Thread} {bolt.Strength.Name} at friction {bolt.ThreadFriction}: {OptionText.Words(judgement.YieldLimit)}.");
        foreach (var finding in judgement.Findings)
        {
            Console.WriteLine($"  {finding.Sentence}");
        }

        if (condition is not null)
        {
            Console.WriteLine($"  {condition}");
        }

        Console.WriteLine(Judgement.MakerFirst);
        return 0;
    }
}
