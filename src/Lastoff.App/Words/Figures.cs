using System.Globalization;
using Lastoff.App.Device;
using Lastoff.Core.Joints;
using Lastoff.Core.Maps;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Words;

/// <summary>How numbers, places and tools are said on the screen.</summary>
public static class Figures
{
    /// <summary>Below this a wrench is marked in inch-pounds as a rule.</summary>
    private const double SmallTorque_Nm = 20;

    /// <summary>Reads a number as it is typed, with a decimal comma or point, and with spaces between the thousands as a counter is read off; false when it is none.</summary>
    public static bool TryRead(string? text, out double value) =>
        double.TryParse(string.Concat((text ?? "").Where(sign => !char.IsWhiteSpace(sign))).Replace(',', '.'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);

    /// <summary>Whether a number may be a thousand to one person and one and a bit to another: 1,250 or 1.250.</summary>
    public static bool IsTwoThings(string? text) => (text ?? "").Trim() is var typed && typed.LastIndexOfAny([',', '.']) is > 0 and <= 3 and var mark && typed.Length - mark == 4 && typed[0] != '0' && typed[(mark + 1)..].All(char.IsAsciiDigit);

    /// <summary>A number as it is shown.</summary>
    public static string Number(double value) => Marked(Plain(value));

    /// <summary>A number as it is exported, or stands in a field that it can be typed over in: the same in every language.</summary>
    public static string Plain(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>How tight, as it is shown.</summary>
    public static string Of(Torque torque, TorqueUnit unit) => Marked(torque.Text(unit));

    /// <summary>Figures written with a point, with the mark that the person knows.</summary>
    public static string Marked(string figures) => figures.Replace(".", DecimalMark, StringComparison.Ordinal);

    /// <summary>The same tightness as the other wrench has it: in pounds beside the metric units, in newton metres beside pounds.</summary>
    public static string Beside(Torque torque, TorqueUnit unit) => Of(
        torque,
        unit is TorqueUnit.InchPound or TorqueUnit.FootPound ? TorqueUnit.NewtonMetre
        : torque.NewtonMetres < SmallTorque_Nm ? TorqueUnit.InchPound
        : TorqueUnit.FootPound);

    /// <summary>As papers and the command line round them: nothing that takes any time takes none.</summary>
    public static string Minutes(double minutes)
    {
        var whole = (int)Math.Max(minutes > 0 ? 1 : 0, Math.Round(minutes));
        return whole < 60 ? $"{whole} min" : $"{whole / 60} h {whole % 60:00} min";
    }

    /// <summary>A time the way the person reads it: only the hour when it is today's.</summary>
    public static string Time(DateTimeOffset at) => LocalTime.Of(at) is var local && LocalTime.DayOf(at) == LocalTime.Today
        ? local.ToString("HH:mm", CultureInfo.InvariantCulture)
        : $"{DayAndMonth(local.Day, local.Month)} {Hour(at)}";

    public static string Day(DateOnly day) => day.Year == LocalTime.Today.Year ? DayAndMonth(day.Day, day.Month) : $"{DayAndMonth(day.Day, day.Month)} {day.Year}";

    /// <summary>A day as it is exported.</summary>
    public static string PlainDay(DateOnly day) => day.ToString(day.Year == LocalTime.Today.Year ? "d MMM" : "d MMM yyyy", CultureInfo.InvariantCulture);

    public static string Hour(DateTimeOffset at) => LocalTime.Of(at).ToString("HH:mm", CultureInfo.InvariantCulture);

    public static string Place(Position at) => at switch
    {
        Position.Front => Say("At the front"),
        Position.Rear => Say("At the rear"),
        Position.Left => Say("On the left"),
        Position.Right => Say("On the right"),
        Position.Above => Say("From above"),
        _ => Say("From below, on the lift"),
    };

    public static string Count(Renewal renewal) =>
        renewal.Unit.Length > 0 ? $"{Number(renewal.Count)} {renewal.Unit}" : $"{Number(renewal.Count)}";

    private static string DayAndMonth(int day, int month) => month switch
    {
        1 => Say($"{day} Jan"),
        2 => Say($"{day} Feb"),
        3 => Say($"{day} Mar"),
        4 => Say($"{day} Apr"),
        5 => Say($"{day} May"),
        6 => Say($"{day} Jun"),
        7 => Say($"{day} Jul"),
        8 => Say($"{day} Aug"),
        9 => Say($"{day} Sep"),
        10 => Say($"{day} Oct"),
        11 => Say($"{day} Nov"),
        _ => Say($"{day} Dec"),
    };
}
