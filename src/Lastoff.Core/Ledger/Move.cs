using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>The eight moves: each operation of a map, out and back.</summary>
public enum Move { SupplySafe, JointUndone, PartAside, PartOff, SupplyRestored, JointMade, PartHome, PartFitted }

public static class Moves
{
    public static bool IsBack(this Move move) => move >= Move.SupplyRestored;

    public static OperationKind Operation(this Move move) => (OperationKind)((int)move % 4);

    public static Move Out(this OperationKind kind) => (Move)(int)kind;

    public static Move Back(this OperationKind kind) => (Move)((int)kind + 4);

    /// <summary>What the move does to its target, as said of it afterwards.</summary>
    public static string Done(this Move move) => move switch
    {
        Move.SupplySafe => "made safe",
        Move.SupplyRestored => "restored",
        Move.JointUndone => "undone",
        Move.JointMade => "done up",
        Move.PartAside => "laid aside",
        Move.PartHome => "brought home",
        Move.PartOff => "taken off",
        _ => "fitted",
    };
}
