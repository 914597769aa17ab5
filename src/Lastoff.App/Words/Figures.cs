using System.Globalization;
using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.App.Words;

/// <summary>How numbers, places and tools are said on the screen.</summary>
public static class Figures
{
    /// <summary>Below this a wrench is marked in inch-pounds as a rule.</summary>
    private const double SmallTorque_Nm = 20;

    public static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    public static string Metric(Torque torque) => $"{Number(torque.NewtonMetres)} N·m";

    /// <summary>The same tightness in the unit of the other wrench.</summary>
    public static string Imperial(Torque torque) => torque.NewtonMetres < SmallTorque_Nm
        ? string.Create(CultureInfo.InvariantCulture, $"{torque.InchPounds:0} in·lb")
        : string.Create(CultureInfo.InvariantCulture, $"{torque.FootPounds:0} ft·lb");

    public static string Minutes(double minutes)
    {
        var whole = (int)Math.Ceiling(minutes);
        return whole < 60 ? $"{whole} min" : $"{whole / 60} h {whole % 60:00} min";
    }

    /// <summary>A time the way the person reads it: only the hour when it is today's.</summary>
    public static string Time(DateTimeOffset at) => at.LocalDateTime is var local && local.Date == DateTime.Today
        ? local.ToString("HH:mm", CultureInfo.InvariantCulture)
        : local.ToString("d MMM HH:mm", CultureInfo.InvariantCulture);

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
