using Lastoff.Core.Maps;
using Lastoff.Core.Planning;

namespace Lastoff.App.Words;

/// <summary>The usual cautions (common practice, no source), for where the map has none of its own.</summary>
public static class Cautions
{
    public static string? Of(OperationNet net, PlanStep step)
    {
        if (!string.IsNullOrWhiteSpace(step.Caution))
        {
            return step.Caution;
        }

        return step.Kind switch
        {
            StepKind.MakeSafe or StepKind.Restore => net.Supplies.TryGetValue(step.Target, out var supply) ? Of(supply) : null,
            StepKind.Clean => "Eye protection. Keep what comes off out of the openings.",
            _ => step.At == Position.Below ? "Lift locks in, or stands under it, before you go beneath." : null,
        };
    }

    private static string? Of(Supply supply) => supply.Caution ?? supply.Kind switch
    {
        SupplyKind.Battery => "Ignition off. Negative lead off first and on last.",
        SupplyKind.HighVoltage => "Only for people trained and allowed to work on high voltage.",
        SupplyKind.FuelPressure => "Fuel vapour burns: no flame, no spark, eye protection.",
        SupplyKind.Coolant => "Hot coolant is under pressure and scalds: let it cool first. Poisonous: catch all of it.",
        SupplyKind.Oil => "Hot oil burns. Catch all of it.",
        SupplyKind.Refrigerant => "Only with recovery equipment, by people licensed for it.",
        SupplyKind.Vacuum => "Let the air in slowly.",
        SupplyKind.Hydraulic => "A fine jet under pressure goes through skin: let the pressure off first.",
        _ => null,
    };
}
