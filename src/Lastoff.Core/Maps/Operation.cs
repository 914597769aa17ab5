namespace Lastoff.Core.Maps;

/// <summary>The four things that can be done on the way out; each has its opposite on the way back.</summary>
public enum OperationKind
{
    /// <summary>Make a supply safe; on the way back, restore it.</summary>
    MakeSafe,
    /// <summary>Undo a joint; on the way back, make it.</summary>
    Undo,
    /// <summary>Lay a part aside; on the way back, bring it home.</summary>
    Aside,
    /// <summary>Take a part off; on the way back, fit it.</summary>
    Off,
}

/// <summary>One operation of a map, with every way it can be done.</summary>
public sealed record Operation(
    int Index,
    OperationKind Kind,
    string Target,
    string Name,
    double OutMinutes,
    double BackMinutes,
    IReadOnlyList<Way> Ways);

/// <summary>One way of doing an operation.</summary>
/// <param name="First">What must be done before, wherever one stands: supplies made safe, joints undone. Every set must have at least one of its operations done.</param>
/// <param name="Clear">What must be out of the way to get at it; read like <paramref name="First"/>.</param>
/// <param name="Times">Factor on the operation's minutes.</param>
/// <param name="Alternative">The alternative of the reach it comes from, or null when there is only one way.</param>
public sealed record Way(
    IReadOnlyList<OperationSet> First,
    IReadOnlyList<OperationSet> Clear,
    double Times,
    Tool Tool,
    Position At,
    ReachWay? Alternative)
{
    public IEnumerable<OperationSet> Needs => First.Concat(Clear);

    public bool IsOpen(OperationSet done) => Holds(First, done) && Holds(Clear, done);

    public bool IsInReach(OperationSet done) => Holds(Clear, done);

    private static bool Holds(IReadOnlyList<OperationSet> needs, OperationSet done)
    {
        for (var i = 0; i < needs.Count; i++)
        {
            if (!needs[i].Overlaps(done))
            {
                return false;
            }
        }

        return true;
    }
}
