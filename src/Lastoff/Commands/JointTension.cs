using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Lastoff.Core.Joints;

namespace Lastoff.Commands;

/// <summary><c>lastoff joint tension</c>: preload and torque by the long form, and the limits of the bolt.</summary>
internal static class JointTension
{
    private static readonly BoltOptions Bolt = new();
    private static readonly Option<string?> TorqueOption = new("--torque") { Description = "The torque to find the preload of, such as 25N·m." };
    private static readonly Option<string?> PreloadOption = new("--preload") { Description = "The preload to find the torque of, such as 15kN." };

    public static Command Build()
    {
        var command = new Command("tension", "Preload and torque over a range of friction, and what the bolt bears.");
        Bolt.AddAllTo(command);
        command.Options.Add(TorqueOption);
        command.Options.Add(PreloadOption);
        command.Options.Add(Output.Json);
        command.SetAction(Show);
        return command;
    }

    private static int Show(ParseResult parsed)
    {
        var bolt = Bolt.Tightening(parsed);
        var condition = Bolt.Condition(parsed);
        var torque = parsed.ReadTorque(TorqueOption);
        var preload = parsed.Read(PreloadOption, Measure.Force_N);
        if (torque is not null && preload is not null)
        {
            throw new Failure("--torque and --preload: give one, and the other is computed from it.");
        }

        var tension = torque is { } given ? bolt.At(given) : null;
        double? utilisation = preload is { } pull ? bolt.UtilisationAt(pull) : tension?.Utilisation;
        var pastYield = utilisation * Tightening.ShareOfYield > 1 || tension is { Yield: not YieldReach.Below };
        var needed = preload is { } wanted && !pastYield ? bolt.TorqueFor_Nm(wanted) : (Interval?)null;
        var sentences = new List<string>();
        if (condition is not null)
        {
            sentences.Add(condition.Sentence);
        }

        if (pastYield)
        {
            sentences.Add($"{(torque is { } t ? t.ToString() : OptionText.Kilonewtons(preload!.Value))} takes {bolt.Thread} {bolt.Strength.Name} past its yield{(tension?.Yield == YieldReach.PastAtLowFriction ? " at the low end of the friction" : "")}; past yield the formula no longer holds, so no figure is given for it.");
        }
        else if (utilisation > 1)
        {
            sentences.Add("This is past 90 % of yield, the usual limit.");
        }

        if (parsed.GetValue(Output.Json))
        {
            Output.Write(ToJson(bolt, tension, torque, preload, needed, pastYield ? null : utilisation, sentences));
            return 0;
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{bolt.Thread} {bolt.Strength.Name}: stress area {bolt.Thread.StressArea_mm2:0.0} mm², proof load {OptionText.Kilonewtons(bolt.Strength.ProofLoad_N(bolt.Thread))}, tensile load {OptionText.Kilonewtons(bolt.Strength.TensileLoad_N(bolt.Thread))}."));
        Console.WriteLine($"Friction {bolt.ThreadFriction} in the thread, {bolt.HeadFriction} under the head; bearing face: {bolt.Face.Source}.");
        Console.WriteLine($"Limit, 90 % of yield (by VDI 2230:2001; tables of 1986 are lower): {OptionText.Kilonewtons(bolt.PreloadMax_N.Low)} of preload, {OptionText.Words(bolt.TorqueMax)}.");
        if (tension is { PreloadLow_N: { } low })
        {
            Console.WriteLine($"{OptionText.Words(torque!.Value)} pulls {Range(low, tension.PreloadHigh_N, OptionText.Kilonewtons)}.");
        }

        if (needed is { } n)
        {
            Console.WriteLine($"{OptionText.Kilonewtons(preload!.Value)} takes {Range(n.Low, n.High, value => OptionText.Words(Torque.FromNewtonMetres(value)))}.");
        }

        if (utilisation is { } share && !pastYield)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"That is {100 * share:0} % of the limit at worst."));
        }

        sentences.ForEach(Console.WriteLine);
        Console.WriteLine(JointCommand.Guidance);
        return 0;
    }

    private static string Range(double low, double? high, Func<double, string> words) => high is not { } top ? $"{words(low)} and more" : low == top ? words(low) : $"{words(low)} to {words(top)}";

    private static JsonObject ToJson(Tightening bolt, Tension? tension, Torque? torque, double? preload, Interval? needed, double? utilisation, IEnumerable<string> sentences) => new()
    {
        ["thread"] = bolt.Thread.Designation,
        ["class"] = bolt.Strength.Name,
        ["pitch_mm"] = bolt.Thread.Pitch_mm,
        ["pitch_diameter_mm"] = bolt.Thread.PitchDiameter_mm,
        ["minor_diameter_mm"] = bolt.Thread.MinorDiameter_mm,
        ["root_diameter_mm"] = bolt.Thread.RootDiameter_mm,
        ["stress_area_mm2"] = bolt.Thread.StressArea_mm2,
        ["proof_load_N"] = bolt.Strength.ProofLoad_N(bolt.Thread),
        ["tensile_load_N"] = bolt.Strength.TensileLoad_N(bolt.Thread),
        ["bearing_mean_diameter_mm"] = bolt.Face.MeanDiameter_mm,
        ["bearing_source"] = bolt.Face.Source,
        ["method"] = Tightening.Method,
        ["preload_max_N"] = bolt.PreloadMax_N.Low,
        ["torque_max_Nm"] = bolt.TorqueMax.NewtonMetres,
        ["preload_N"] = preload ?? (tension?.PreloadLow_N == tension?.PreloadHigh_N ? tension?.PreloadLow_N : null),
        ["preload_low_N"] = preload ?? tension?.PreloadLow_N,
        ["preload_high_N"] = preload ?? tension?.PreloadHigh_N,
        ["torque_Nm"] = torque?.NewtonMetres ?? (needed is { } n && n.Low == n.High ? n.Low : null),
        ["torque_low_Nm"] = torque?.NewtonMetres ?? needed?.Low,
        ["torque_high_Nm"] = torque?.NewtonMetres ?? needed?.High,
        ["utilisation"] = utilisation,
        ["sentences"] = Output.List(sentences, sentence => JsonValue.Create(sentence)),
        ["guidance"] = JointCommand.Guidance,
    };
}
