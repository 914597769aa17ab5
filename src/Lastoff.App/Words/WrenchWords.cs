using System.Globalization;
using Lastoff.App.Device;
using Lastoff.Core.Joints;

namespace Lastoff.App.Words;

public static class WrenchWords
{
    /// <summary>A wrench in one line: its range, its class, and how its calibration stands today.</summary>
    public static string Of(KeptWrench wrench, TorqueUnit unit) =>
        $"{Torque.FromNewtonMetres(wrench.Lowest_Nm).Text(unit)} to {Torque.FromNewtonMetres(wrench.Highest_Nm).Text(unit)}, {wrench.Class}. {Calibration(wrench.CalibrationDue, DateOnly.FromDateTime(DateTime.Today))}";

    public static string Calibration(DateOnly? due, DateOnly today) =>
        due is not { } day ? "No calibration on record."
        : string.Create(CultureInfo.InvariantCulture, today > day ? $"Calibration ran out on {day:yyyy-MM-dd}." : $"Calibrated until {day:yyyy-MM-dd}.");
}
