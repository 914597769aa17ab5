using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Commands;

/// <summary><c>lastoff order</c>: in which order and passes the bolts of one joint are tightened.</summary>
internal static class OrderCommand
{
    private static readonly HoleOptions Holes = new();
    private static readonly Option<string?> Passes = new("--passes") { Description = "Shares of the full torque, rising to 100: 30,60,100 when left out; 20,40,80,100 is used from 12 bolts on by some." };
    private static readonly Option<string?> Angles = new("--angles") { Description = "A maker's angle stages after the full torque, in degrees: 90,90." };
    private static readonly Option<string?> TorqueOption = new("--torque") { Description = "The full torque, to write into the passes." };

    public static Command Build()
    {
        var command = new Command("order", "The order and passes in which the bolts of a joint are tightened, and loosened.") { OrderSimulate.Build() };
        Holes.AddTo(command);
        foreach (var option in (Option[])[Passes, Angles, TorqueOption, Output.Json])
        {
            command.Options.Add(option);
        }

        command.SetAction(Show);
        return command;
    }

    private static int Show(ParseResult parsed)
    {
        var pattern = Holes.Pattern(parsed);
        var shares = parsed.GetValue(Passes) is { } text ? [.. OptionText.Numbers(Passes.Name, text, "30,60,100").Select(share => share / 100)] : TighteningPasses.UsualShares;
        IReadOnlyList<double> angles = parsed.GetValue(Angles) is { } turns ? OptionText.Numbers(Angles.Name, turns, "90,90") : [];
        var passes = TighteningPasses.For(pattern, shares, angles).OrFail();
        var torque = parsed.ReadTorque(TorqueOption);
        var order = TighteningOrder.Of(pattern);
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["pattern"] = Words<PatternShape>.Of(pattern.Shape),
                ["order"] = Names(pattern, order),
                ["loosening"] = Names(pattern, TighteningOrder.Loosening(pattern)),
                ["passes"] = Output.List(passes, pass => new JsonObject
                {
                    ["kind"] = Words<PassKind>.Of(pass.Kind),
                    ["share"] = pass.Share,
                    ["angle_deg"] = pass.Angle_deg,
                    ["torque_Nm"] = pass.Share * torque?.NewtonMetres,
                    ["order"] = Names(pattern, pass.Order),
                    ["sentence"] = pass.Sentence,
                }),
                ["guidance"] = JointCommand.Guidance,
            });
            return 0;
        }

        Console.WriteLine(pattern.Shape == PatternShape.Circle ? "On a circle: crosswise." : "From the middle outwards.");
        foreach (var (i, pass) in passes.Index())
        {
            var at = pass.Share * torque?.NewtonMetres is { } value ? string.Create(CultureInfo.InvariantCulture, $" ({value:0.#} N·m)") : "";
            Console.WriteLine($"{i + 1}. {pass.Sentence}{at} {string.Join(" ", pass.Order.Select(hole => pattern.Holes[hole].Name))}");
        }

        Console.WriteLine($"Loosen a little at a time in reverse: {string.Join(" ", TighteningOrder.Loosening(pattern).Select(hole => pattern.Holes[hole].Name))}");
        Console.WriteLine(JointCommand.Guidance);
        return 0;
    }

    private static JsonArray Names(HolePattern pattern, IEnumerable<int> holes) => Output.List(holes, hole => OptionText.Bolt(pattern.Holes[hole].Name));
}
