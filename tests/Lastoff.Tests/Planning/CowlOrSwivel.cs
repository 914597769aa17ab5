using Lastoff.Core.Maps;

namespace Lastoff.Tests.Planning;

/// <summary>One bolt, got at with the cowl off, or from below with a long swivel in three times the time. Invented, and so are its minutes.</summary>
internal static class CowlOrSwivel
{
    public static OperationNet Net { get; } = OperationNet.From(new Map
    {
        Name = "pump",
        Title = "Invented pump",
        SetUp = new SetUpMinutes(0, 0, 0),
        Parts = [new Part { Id = "cowl", Name = "Cowl", OffMinutes = 2, OnMinutes = 2 }, new Part { Id = "pump", Name = "Pump", OffMinutes = 2, OnMinutes = 3 }],
        Joints =
        [
            new Joint
            {
                Id = "bolt", Name = "Pump bolt", Kind = JointKind.Bolt, Holds = ["pump"], UndoMinutes = 2, MakeMinutes = 2, Tool = new Tool("ratchet", "hex 13 mm"),
                Reach = new Reach([], [], [new ReachWay(["cowl"], [], null, null, 1, 0), new ReachWay([], [], Position.Below, new Tool("long swivel", null), 3, 0)]),
            },
        ],
    });
}
