using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Lastoff.Core.Joints;

namespace Lastoff.Commands;

/// <summary><c>lastoff joint wrench</c>: what to set, and whether a wrench can do it.</summary>
internal static class JointWrench
{
    private static readonly Option<string> TorqueOption = new("--torque") { Description = "The torque the fastener is to get.", Required = true };
    private static readonly Option<string> Length = new("--length") { Description = "From the wrench's square to the middle of the grip, such as 400mm.", Required = true };
    private static readonly Option<string?> Extension = new("--extension") { Description = "Crow's foot or extension, from the square to the middle of the fastener; none when left out." };
    private static readonly Option<string?> Angle = new("--angle") { Description = "0deg in line with the lever, 90deg square to it, 180deg folded back; in line when left out." };
    private static readonly Option<string?> Highest = new("--max") { Description = "Highest torque of the wrench; with it the wrench is judged too." };
    private static readonly Option<string?> Lowest = new("--min") { Description = "Lowest torque marked on it; a fifth of the highest when left out." };
    private static readonly Option<string?> Step = new("--step") { Description = "Between two marks of its scale; set without steps when left out." };
    private static readonly Option<string> Class = new("--class") { Description = "Type and class by ISO 6789.", DefaultValueFactory = _ => "II-A" };
    private static readonly Option<string?> Due = new("--due") { Description = "Last day its calibration counts, as 2026-05-31." };
    private static readonly Option<string?> Today = new("--today") { Description = "The day to judge it on; today when left out." };

    public static Command Build()
    {
        var command = new Command("wrench", "What to set on a torque wrench with a crow's foot or extension, and whether it can do it.");
        foreach (var option in (Option[])[TorqueOption, Length, Extension, Angle, Highest, Lowest, Step, Class, Due, Today, Output.Json])
        {
            command.Options.Add(option);
        }

        command.SetAction(Show);
        return command;
    }

    private static int Show(ParseResult parsed)
    {
        var torque = Torque.FromNewtonMetres(OptionText.Read(TorqueOption.Name, parsed.GetValue(TorqueOption)!, Measure.Torque_Nm));
        var lever = OptionText.Read(Length.Name, parsed.GetValue(Length)!, Measure.Length_mm);
        var extension = parsed.Read(Extension, Measure.Length_mm, aboveZero: false) ?? 0;
        var angle = parsed.Read(Angle, Measure.Angle_deg, aboveZero: false) ?? 0;
        var setting = WrenchSetting.For(torque, lever, extension, angle).OrFail();
        var fit = parsed.ReadTorque(Highest) is not { } highest ? null
            : new Wrench("this wrench", WrenchClass.Named(parsed.GetValue(Class)!).OrFail("--class"), parsed.ReadTorque(Lowest) ?? Wrench.UsualLowest(highest), highest,
                parsed.Read(Step, Measure.Torque_Nm) ?? 0, lever, Day(parsed, Due)).For(torque, extension, angle, Day(parsed, Today) ?? DateOnly.FromDateTime(DateTime.Now)).OrFail();
        if (parsed.GetValue(Output.Json))
        {
            Output.Write(new JsonObject
            {
                ["torque_Nm"] = torque.NewtonMetres,
                ["setting_Nm"] = setting.NewtonMetres,
                ["mark_Nm"] = fit?.Mark.NewtonMetres,
                ["at_fastener_low_Nm"] = fit?.AtFastener_Nm.Low,
                ["at_fastener_high_Nm"] = fit?.AtFastener_Nm.High,
                ["deviation"] = fit?.Deviation,
                ["can_do_it"] = fit?.CanDoIt,
                ["reasons"] = fit is null ? null : Output.List(fit.Reasons, reason => JsonValue.Create(reason)),
                ["guidance"] = JointCommand.Guidance,
            });
            return 0;
        }

        Console.WriteLine($"Set {OptionText.Words(setting)} for {OptionText.Words(torque)} at the fastener. Pull square to the lever, at the middle of the grip.");
        if (fit is not null)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Nearest mark {fit.Mark}: the fastener gets {fit.AtFastener_Nm.Low:0.##} to {fit.AtFastener_Nm.High:0.##} N·m (the tool alone may be off by {100 * fit.Deviation:0} %)."));
            Console.WriteLine(fit.CanDoIt ? "This wrench can do it." : string.Join(" ", fit.Reasons));
        }

        Console.WriteLine(JointCommand.Guidance);
        return 0;
    }

    private static DateOnly? Day(ParseResult parsed, Option<string?> option) => parsed.GetValue(option) is not { } text ? null
        : DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day
        : throw new Failure($"{option.Name} {text}: this is not a day; write it like 2026-05-31.");
}
