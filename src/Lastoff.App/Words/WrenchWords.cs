using System.Globalization;
using Lastoff.App.Device;
using Lastoff.Core.Joints;
using static Lastoff.App.Words.Speech;

namespace Lastoff.App.Words;

public static class WrenchWords
{
    /// <summary>A wrench in one line: its range, its class, and how its calibration stands today.</summary>
    public static string Of(KeptWrench wrench, TorqueUnit unit) =>
        $"{Figures.Of(Torque.FromNewtonMetres(wrench.Lowest_Nm), unit)} {Say("to")} {Figures.Of(Torque.FromNewtonMetres(wrench.Highest_Nm), unit)}, {wrench.Class.Replace('-', '\u2011')}. {Calibration(wrench.CalibrationDue, LocalTime.Today)}";

    /// <summary>From the least to the most the bolt can get: "19.4 to 21.1 N·m".</summary>
    public static string Range(Interval torque_Nm, TorqueUnit unit)
    {
        var (low, high) = (Torque.FromNewtonMetres(torque_Nm.Low).In(unit), Torque.FromNewtonMetres(torque_Nm.High).In(unit));
        var figures = high < 10 ? "0.00" : high < 100 ? "0.0" : "0";
        return $"{Figures.Marked(low.ToString(figures, CultureInfo.InvariantCulture))} {Say("to")} {Figures.Marked(high.ToString(figures, CultureInfo.InvariantCulture))} {unit.Sign()}";
    }

    public static string Calibration(DateOnly? due, DateOnly today) =>
        due is not { } day ? Say("No calibration on record.")
        : today > day ? Say($"Calibration ran out on {day:yyyy-MM-dd}.")
        : Say($"Calibrated until {day:yyyy-MM-dd}.");
}
