using System.Globalization;
using Lastoff.Core.Joints;
using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Papers;

/// <summary>What a tightening is called on paper.</summary>
internal static class TorqueWords
{
    public const string NoWrench = "no wrench named";

    /// <summary>Nobody wrote down a reading of it: it is what the map asks for, or what a line said.</summary>
    public static Said AsAsked(Torque torque, bool hasMap) => new(
        hasMap ? $"{torque.Text(TorqueUnit.NewtonMetre)} by the map" : $"{torque.Text(TorqueUnit.NewtonMetre)} as recorded", Datum.Of("asked_torque_Nm", torque.NewtonMetres));

    /// <summary>What it was tightened to by whoever did it.</summary>
    public static Said AsDone(double torque_Nm) => new(Torque.FromNewtonMetres(torque_Nm).Text(TorqueUnit.NewtonMetre), Datum.Of("torque_Nm", torque_Nm));

    /// <summary>“pass 2 of 4, bolt 3”; only the numbers where the map knows no such pass.</summary>
    public static string Pass(OperationNet net, JointTightened tightened) =>
        (net.Joints.TryGetValue(tightened.Joint, out var joint) && tightened.Pass <= joint.Passes.Count ? $"pass {tightened.Pass} of {joint.Passes.Count}" : $"pass {tightened.Pass}")
        + (tightened.Bolt is { } bolt ? $", bolt {bolt}" : "");

    /// <summary>“20 N·m”, with what stood on a wrench that is marked otherwise; “90°”; “snug”.</summary>
    public static Said Tightness(JointTightened tightened)
    {
        List<string> words = [];
        List<Datum> data = [];
        if (tightened.Torque_Nm is { } torque_Nm)
        {
            data.Add(Datum.Of("torque_Nm", torque_Nm));
            var torque = Torque.FromNewtonMetres(torque_Nm);
            var inUnits = torque.Text(TorqueUnit.NewtonMetre);
            words.Add(tightened.Unit is { } unit && unit != TorqueUnit.NewtonMetre ? $"{inUnits} (read as {torque.Text(unit)})" : inUnits);
        }

        if (tightened.Angle_deg is { } angle)
        {
            data.Add(Datum.Of("angle_deg", angle));
            words.Add(string.Create(CultureInfo.InvariantCulture, $"{angle:0.#}°"));
        }

        return new(words.Count == 0 ? "snug" : string.Join(", then ", words), data);
    }

    /// <summary>The wrench as it was used, with what was dialled in and how long its calibration counts.</summary>
    public static Said Wrench(WrenchUsed? used)
    {
        if (used is not { } wrench)
        {
            return NoWrench;
        }

        List<Datum> data = [Datum.Of("wrench", wrench.Name)];
        var words = wrench.Name;
        if (wrench.Setting_Nm is { } setting)
        {
            data.Add(Datum.Of("setting_Nm", setting));
            words += $", set to {Torque.FromNewtonMetres(setting).Text(TorqueUnit.NewtonMetre)}";
        }

        if (wrench.CalibrationDue is { } due)
        {
            data.Add(Datum.Of("calibration_due", due));
        }

        return new($"{words}\n{(wrench.CalibrationDue is { } day ? $"calibrated until {PaperTime.Of(day)}" : "no calibration on record")}", data);
    }
}
