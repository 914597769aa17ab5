using System.Globalization;
using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.App.Words;

/// <summary>How numbers, places and tools are said on the screen.</summary>
public static class Figures
{
    /// <summary>Below this a wrench is marked in inch-pounds as a rule.</summary>
    private const double SmallTorque_Nm = 20;

    /// <summary>Reads a number as it is typed, with a decimal comma or point; false when it is none.</summary>
    public static bool TryRead(string? text, out double value) =>
        double.TryParse((text ?? "").Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);

    /// <summary>Whether a number may be a thousand to one person and one and a bit to another: 1,250 or 1.250.</summary>
    public static bool IsTwoThings(string? text) => (text ?? "").Trim() is var typed && typed.LastIndexOfAny([',', '.']) is > 0 and <= 3 and var mark && typed.Length - mark == 4 && typed[0] != '0' && typed[(mark + 1)..].All(char.IsAsciiDigit);

    public static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>The same tightness as the other wrench has it: in pounds beside the metric units, in newton metres beside pounds.</summary>
    public static string Beside(Torque torque, TorqueUnit unit) => torque.Text(
        unit is TorqueUnit.InchPound or TorqueUnit.FootPound ? TorqueUnit.NewtonMetre
        : torque.NewtonMetres < SmallTorque_Nm ? TorqueUnit.InchPound
        : TorqueUnit.FootPound);

    public static string Minutes(double minutes)
    {
        var whole = (int)Math.Ceiling(minutes);
        return whole < 60 ? $"{whole} min" : $"{whole / 60} h {whole % 60:00} min";
    }

    /// <summary>A time the way the person reads it: only the hour when it is today's.</summary>
    public static string Time(DateTimeOffset at) => at.LocalDateTime is var local && local.Date == DateTime.Today
        ? local.ToString("HH:mm", CultureInfo.InvariantCulture)
        : local.ToString("d MMM HH:mm", CultureInfo.InvariantCulture);

    public static string Day(DateOnly day) => day.ToString(day.Year == DateTime.Today.Year ? "d MMM" : "d MMM yyyy", CultureInfo.InvariantCulture);

    public static string Hour(DateTimeOffset at) => at.LocalDateTime.ToString("HH:mm", CultureInfo.InvariantCulture);

    public static string Place(Position at) => at switch
    {
        Position.Front => "At the front",
        Position.Rear => "At the rear",
        Position.Left => "On the left",
        Position.Right => "On the right",
        Position.Above => "From above",
        _ => "From below, on the lift",
    };

    public static string Count(Renewal renewal) =>
        renewal.Unit.Length > 0 ? $"{Number(renewal.Count)} {renewal.Unit}" : $"{Number(renewal.Count)}";
}
