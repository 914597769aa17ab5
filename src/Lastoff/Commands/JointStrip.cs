using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Lastoff.Core.Joints;

namespace Lastoff.Commands;

/// <summary><c>lastoff joint strip</c>: which gives first, the bolt or one of the threads.</summary>
internal static class JointStrip
{
    private static readonly BoltOptions Bolt = new();
    private static readonly BossOptions Boss = new();
    private static readonly Option<string?> BoltStrength = new("--bolt-strength") { Description = "Tensile strength of the bolt, such as 800MPa." };
    private static readonly Option<string?> BoltClass = new("--class") { Description = "The bolt's class or grade, instead of its strength." };
    private static readonly Option<string?> Preload = new("--preload") { Description = "The preload to give a safety factor for; else the bolt's breaking load is taken." };

    public static Command Build()
    {
        var command = new Command("strip", "Whether a thread strips before its bolt breaks, and the length it takes not to.");
        Bolt.AddThreadTo(command);
        Boss.AddTo(command);
        foreach (var option in (Option[])[BoltStrength, BoltClass, Preload, Output.Json])
        {
            command.Options.Add(option);
        }

        command.SetAction(Show);
        return command;
    }

    private static int Show(ParseResult parsed)
    {
        var thread = Bolt.Thread(parsed);
        var tensile = parsed.Read(BoltStrength, Measure.Stress_MPa)
            ?? (parsed.GetValue(BoltClass) is { } mark ? BoltGrade.Of(mark, thread).OrFail("--class").Tensile_MPa : throw new Failure("--bolt-strength: state the bolt's strength, such as 800MPa, or its --class."));
        var (stripping, boss) = Boss.Stripping(parsed, thread, tensile);
        var load = parsed.Read(Preload, Measure.Force_N) ?? stripping.BoltBreak_N;
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["thread"] = thread.Designation,
                ["engaged_mm"] = stripping.Engaged_mm,
                ["bolt_area_mm2"] = stripping.BoltArea_mm2,
                ["boss_area_mm2"] = stripping.BossArea_mm2,
                ["bolt_area_mm2_per_mm"] = stripping.BoltAreaPerLength_mm,
                ["boss_area_mm2_per_mm"] = stripping.BossAreaPerLength_mm,
                ["boss_strength_MPa"] = stripping.BossTensile_MPa,
                ["boss_strength_source"] = boss.Source,
                ["bolt_strip_N"] = stripping.BoltStrip_N,
                ["boss_strip_N"] = stripping.BossStrip_N,
                ["bolt_break_N"] = stripping.BoltBreak_N,
                ["weaker_thread"] = Judgement.Word(stripping.WeakerThread),
                ["fails_first"] = Judgement.Word(stripping.FailsFirst),
                ["needed_mm"] = stripping.Needed_mm,
                ["rule_of_thumb_mm"] = boss.UsualDiameters * thread.Diameter_mm,
                ["safety_factor"] = stripping.SafetyFactor(load),
                ["guidance"] = JointCommand.Guidance,
            });
            return 0;
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{thread}, {stripping.Engaged_mm:0.##} mm engaged; the boss at {stripping.BossTensile_MPa:0} MPa ({boss.Source})."));
        Console.WriteLine($"Thread of the bolt strips at {OptionText.Kilonewtons(stripping.BoltStrip_N)}, thread in the boss at {OptionText.Kilonewtons(stripping.BossStrip_N)}, the shank breaks at {OptionText.Kilonewtons(stripping.BoltBreak_N)}.");
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"First to fail: the {Judgement.Word(stripping.FailsFirst)}. The weaker thread bears {stripping.SafetyFactor(load):0.00} times {OptionText.Kilonewtons(load)}; from {stripping.Needed_mm:0.0} mm on the shank breaks before a thread strips."));
        if (boss.UsualDiameters is { } diameters)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"A rule of thumb asks for {diameters:0.##} diameters in {boss.Name}: {diameters * thread.Diameter_mm:0.#} mm."));
        }

        Console.WriteLine(JointCommand.Guidance);
        return 0;
    }
}
