using Lastoff.Core.Maps;

namespace Lastoff.Core.Estimating;

/// <summary>What work takes as a rule before anybody timed it. Set down, no source: they give a plan its shape until the ledger knows better.</summary>
public static class TradeMinutes
{
    public const double PartOff = 1;
    public const double PartOn = 1.5;
    public const double Aside = 1;
    public const double Home = 1;
    public const double LeakLook = 5;

    /// <summary>Minutes to undo a joint.</summary>
    /// <param name="count">How many fasteners, 1 or more.</param>
    public static double Undo(JointKind kind, int count) => kind switch
    {
        JointKind.Bolt or JointKind.Nut or JointKind.Stud => 0.5 + (0.4 * count),
        JointKind.Screw => 0.3 + (0.3 * count),
        JointKind.Connector or JointKind.Clip or JointKind.Tie => 0.1 + (0.3 * count),
        JointKind.Face => 3,
        _ => 0.4 + (0.6 * count),
    };

    /// <summary>Minutes to make it again. Starting a thread by hand and tightening it take longer than undoing it.</summary>
    public static double Make(JointKind kind, int count) => kind switch
    {
        JointKind.Face => 6,
        JointKind.Connector or JointKind.Clip or JointKind.Tie => Undo(kind, count),
        _ => 1.4 * Undo(kind, count),
    };

    /// <summary>Minutes to make a supply safe, and to restore it.</summary>
    public static (double Safe, double Restore) Of(SupplyKind kind) => kind switch
    {
        SupplyKind.Battery => (1, 1),
        SupplyKind.Heat => (0, 0),
        SupplyKind.Coolant or SupplyKind.Oil or SupplyKind.Hydraulic => (10, 10),
        _ => (5, 5),
    };
}
