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
/// <param name="Clear">What must be out of the way to get at it.</param>
/// <param name="Times">Factor on the operation's minutes.</param>
/// <param name="Risk">What may go wrong on the way out, on top of the operation's minutes and not lengthened by the factor.</param>
/// <param name="Alternative">The alternative of the reach it comes from, or null when there is only one way.</param>
public sealed record Way(
    IReadOnlyList<OperationSet> First,
    IReadOnlyList<Clearance> Clear,
    double Times,
    Tool Tool,
    Position At,
    Risk? Risk,
    ReachWay? Alternative)
{
    public IEnumerable<OperationSet> Needs => First.Concat(Clear.Select(c => c.By));

    public bool IsOpen(OperationSet done)
    {
        foreach (var need in First)
        {
            if (!need.Overlaps(done))
            {
                return false;
            }
        }

        return IsInReach(done);
    }

    public bool IsInReach(OperationSet done)
    {
        foreach (var clearance in Clear)
        {
            if (!clearance.By.Overlaps(done))
            {
                return false;
            }
        }

        return true;
    }
}

/// <summary>A part that must be out of the way, and the operations any of which sees to it.</summary>
public sealed record Clearance(string Part, OperationSet By);
