using System.Globalization;

namespace Lastoff.Core.Joints;

/// <summary>One of the workshop's own torque wrenches.</summary>
/// <param name="LowestMarked">The lowest value marked; where none is known, 20 % of the highest is usual (ISO 6789:2003) and a default only.</param>
/// <param name="Step_Nm">Between two marks of its scale or digits of its display; zero when it is set without steps.</param>
/// <param name="Lever_mm">From its square to the middle of the grip; zero when nobody measured it, which does until something lengthens it.</param>
/// <param name="CalibrationDue">The last day its calibration counts; null when it was never calibrated.</param>
public sealed record Wrench(string Name, WrenchClass Class, Torque LowestMarked, Torque Highest, double Step_Nm, double Lever_mm, DateOnly? CalibrationDue)
{
    private const double MostSteps = 100_000;

    public static Torque UsualLowest(Torque highest) => Torque.FromNewtonMetres(0.2 * highest.NewtonMetres);

    /// <summary>What to set for a torque at the fastener, and whether this wrench can be trusted with it on a day.</summary>
    /// <param name="unit">The unit of the sentences.</param>
    public Answer<WrenchFit> For(Torque atFastener, double extension_mm, double angle_deg, DateOnly today, TorqueUnit unit = TorqueUnit.NewtonMetre)
    {
        if ((Step_Nm != 0 && !(Step_Nm >= Highest.NewtonMetres / MostSteps && Step_Nm <= Highest.NewtonMetres)) || LowestMarked.NewtonMetres > Highest.NewtonMetres || Highest.NewtonMetres <= 0)
        {
            return Answer.None<WrenchFit>($"{Name}: its range from {LowestMarked.Text(unit)} to {Highest.Text(unit)} with steps of {ScrewThread.Text(Step_Nm)} N·m cannot be; look at the wrench again.");
        }

        var ratio = 1.0;
        if (Lever_mm == 0 && extension_mm > 0)
        {
            return Answer.None<WrenchFit>($"{Name}: with a crow's foot or extension its length counts; put it in again with the millimetres from its square to the middle of the grip.");
        }

        if (Lever_mm != 0 && !WrenchSetting.Ratio(Lever_mm, extension_mm, angle_deg).TryGet(out ratio, out var sentence))
        {
            return Answer.None<WrenchFit>(sentence);
        }

        var wanted = atFastener.NewtonMetres / ratio;
        var set = Step_Nm == 0 ? wanted : Math.Round((wanted - LowestMarked.NewtonMetres) / Step_Nm) * Step_Nm + LowestMarked.NewtonMetres;
        var reasons = new List<string>();
        var isInRange = wanted >= LowestMarked.NewtonMetres && wanted <= Highest.NewtonMetres;
        if (!isInRange)
        {
            reasons.Add($"It would be set to {Torque.FromNewtonMetres(wanted).Text(unit)}, and {Name} goes from {LowestMarked.Text(unit)} to {Highest.Text(unit)}; take another wrench.");
            set = wanted;
        }

        if (CalibrationDue is not { } due)
        {
            reasons.Add($"No calibration of {Name} is on record.");
        }
        else if (today > due)
        {
            reasons.Add(string.Create(CultureInfo.InvariantCulture, $"The calibration of {Name} ran out on {due:yyyy-MM-dd}."));
        }

        var deviation = Class.Deviation(Highest.NewtonMetres);
        return Answer.Of(new WrenchFit(
            Torque.FromNewtonMetres(wanted), Torque.FromNewtonMetres(Math.Max(0, set)),
            new Interval(Math.Max(0, set) * (1 - deviation) * ratio, Math.Max(0, set) * (1 + deviation) * ratio), deviation, isInRange, reasons));
    }
}

/// <summary>How one wrench does one torque.</summary>
/// <param name="Setting">The exact setting.</param>
/// <param name="Mark">The nearest its scale can be set to.</param>
/// <param name="AtFastener_Nm">What the fastener then gets, with the deviation the class allows; the hand's own error comes on top.</param>
/// <param name="IsInRange">Whether its scale reaches the setting.</param>
/// <param name="Reasons">Why it should not be used; empty when it can be.</param>
public sealed record WrenchFit(Torque Setting, Torque Mark, Interval AtFastener_Nm, double Deviation, bool IsInRange, IReadOnlyList<string> Reasons)
{
    public bool CanDoIt => Reasons.Count == 0;
}
