using System.Globalization;
using System.Text.Json.Nodes;
using Lastoff.Core.Joints;

namespace Lastoff.Core.Ledger;

/// <summary>One bolt of a joint tightened in one of its passes, or all that were left in it.</summary>
/// <param name="Pass">The pass, counted from 1 as the map lists them.</param>
/// <param name="Bolt">The hole's name; null for the whole pass.</param>
/// <param name="Torque_Nm">What the fastener was to get; null for a snug pass and a turn.</param>
/// <param name="Angle_deg">The turn from where it stood; null for any other pass.</param>
/// <param name="Unit">The unit it was read in, as it stood on the screen; null where there is no torque.</param>
/// <param name="With">The wrench; null when none was named.</param>
public sealed record JointTightened(string Joint, int Pass, string? Bolt, double? Torque_Nm, double? Angle_deg, TorqueUnit? Unit = null, WrenchUsed? With = null) : Act
{
    // Far above any fastener: more is a slip of the unit or the decimal point.
    private const double MostTorque_Nm = 1e6;

    public override string Kind => ActKinds.JointTightened;

    /// <summary>Whether its figures can be what was turned.</summary>
    public bool IsPlausible => IsTorque(Torque_Nm) && Angle_deg is null or (> 0 and <= 360) && IsTorque(With?.Setting_Nm);

    /// <summary>Whether a torque, where there is one, can be that of a fastener.</summary>
    internal static bool IsTorque(double? torque_Nm) => torque_Nm is null or (> 0 and <= MostTorque_Nm);

    public override JsonObject ToData()
    {
        var data = new JsonObject { ["joint"] = Joint, ["pass"] = Pass };
        Add("bolt", Bolt);
        Add("torque_Nm", Torque_Nm);
        Add("angle_deg", Angle_deg);
        Add("unit", Unit?.Sign());
        With?.AddTo(data);
        return data;

        void Add(string name, JsonNode? value)
        {
            if (value is not null)
            {
                data[name] = value;
            }
        }
    }

    internal static JointTightened Read(Entry entry)
    {
        var pass = ActKinds.OptionalNumber(entry, "pass") is { } number and >= 1 and <= 1000 && number == Math.Truncate(number)
            ? (int)number
            : throw new FormatException("its data has no pass");
        return new JointTightened(
            ActKinds.Text(entry, "joint"), pass, ActKinds.OptionalText(entry, "bolt"),
            ActKinds.OptionalNumber(entry, "torque_Nm"), ActKinds.OptionalNumber(entry, "angle_deg"),
            ActKinds.OptionalText(entry, "unit") is { } sign ? TorqueUnits.Signed(sign) : null,
            WrenchUsed.Read(entry));
    }
}

/// <summary>The wrench as it was used, so that the record stands without any list of wrenches.</summary>
/// <param name="CalibrationDue">The last day its calibration counts; null when none is on record.</param>
/// <param name="Setting_Nm">What was dialled in, which a crow's foot or an extension makes another figure than the torque; null when it is not known.</param>
public sealed record WrenchUsed(string Name, DateOnly? CalibrationDue, double? Setting_Nm)
{
    internal void AddTo(JsonObject data)
    {
        data["wrench"] = Name;
        if (CalibrationDue is { } day)
        {
            data["calibration_due"] = day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        }

        if (Setting_Nm is not null)
        {
            data["setting_Nm"] = Setting_Nm;
        }
    }

    internal static WrenchUsed? Read(Entry entry) => ActKinds.OptionalText(entry, "wrench") is { } wrench ? new WrenchUsed(wrench, Day(entry), ActKinds.OptionalNumber(entry, "setting_Nm")) : null;

    private static DateOnly? Day(Entry entry) => ActKinds.OptionalText(entry, "calibration_due") is not { } text ? null
        : DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day
        : throw new FormatException("its calibration date is not a day");
}
