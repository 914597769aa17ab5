using Lastoff.Core.Maps;

namespace Lastoff.Core.Planning;

/// <summary>Which faces are cleaned before an operation of the way back: while they can still be got at, which is before the part lies on them and not before the bolts go in. The end of a hose or pipe is got at until it is put on.</summary>
internal static class Faces
{
    /// <summary>The joints whose faces must be clean and dry: the joint that is made, or those that hold the part that goes back.</summary>
    public static IEnumerable<Joint> Of(OperationNet net, Operation operation) => operation.Kind switch
    {
        OperationKind.Undo => new[] { net.Joints[operation.Target] }.Where(joint => joint.Clean),
        OperationKind.Off or OperationKind.Aside => net.JointsOf.GetValueOrDefault(operation.Target, []).Where(joint => joint.Clean && joint.Kind is not (JointKind.Hose or JointKind.Pipe)),
        _ => [],
    };
}
