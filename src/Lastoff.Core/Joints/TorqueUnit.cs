using System.Globalization;

namespace Lastoff.Core.Joints;

/// <summary>The units that torque wrenches are marked in.</summary>
public enum TorqueUnit { NewtonMetre, InchPound, FootPound, KilogramForceMetre }

public static class TorqueUnits
{
    public static IReadOnlyList<TorqueUnit> All { get; } = Enum.GetValues<TorqueUnit>();

    public static string Sign(this TorqueUnit unit) => unit switch
    {
        TorqueUnit.NewtonMetre => "N·m",
        TorqueUnit.InchPound => "in·lb",
        TorqueUnit.FootPound => "ft·lb",
        _ => "kgf·m",
    };

    /// <summary>The unit written with this sign; null when there is none.</summary>
    public static TorqueUnit? Signed(string sign) => All.Where(unit => unit.Sign() == sign).Select(unit => (TorqueUnit?)unit).FirstOrDefault();

    public static double In(this Torque torque, TorqueUnit unit) => unit switch
    {
        TorqueUnit.NewtonMetre => torque.NewtonMetres,
        TorqueUnit.InchPound => torque.InchPounds,
        TorqueUnit.FootPound => torque.FootPounds,
        _ => torque.KilogramForceMetres,
    };

    /// <exception cref="ArgumentOutOfRangeException">The value is negative, infinite or not a number.</exception>
    public static Torque Of(this TorqueUnit unit, double value) => unit switch
    {
        TorqueUnit.NewtonMetre => Torque.FromNewtonMetres(value),
        TorqueUnit.InchPound => Torque.FromInchPounds(value),
        TorqueUnit.FootPound => Torque.FromFootPounds(value),
        _ => Torque.FromKilogramForceMetres(value),
    };

    /// <summary>As a wrench is set: newton metres as the map has them, other units to three figures.</summary>
    public static string Text(this Torque torque, TorqueUnit unit) => $"{Figure(torque.In(unit), unit)} {unit.Sign()}";

    private static string Figure(double value, TorqueUnit unit) => value.ToString(
        unit == TorqueUnit.NewtonMetre || value < 10 ? "0.##" : value < 100 ? "0.#" : "0", CultureInfo.InvariantCulture);
}
