using Lastoff.Core.Joints;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>One bolt in one pass of a joint, tightened since the joint was last undone.</summary>
public readonly record struct TightBolt(string Joint, int Pass, string Bolt);

/// <summary>The pass a joint is at.</summary>
/// <param name="Number">Counted from 1.</param>
/// <param name="Left">The bolts still to do in it, in the order to do them.</param>
public sealed record PassAtHand(Joint Joint, int Number, Pass Pass, IReadOnlyList<string> Left)
{
    public Torque? Torque => Pass.At(Joint.Torque);

    /// <summary>All that is left of the pass, done at once.</summary>
    public JointTightened Whole(TorqueUnit? unit = null, WrenchUsed? with = null) => Of(null, unit, with);

    /// <summary>The bolt whose turn it is.</summary>
    public JointTightened Next(TorqueUnit? unit = null, WrenchUsed? with = null) => Of(Left[0], unit, with);

    private JointTightened Of(string? bolt, TorqueUnit? unit, WrenchUsed? with) =>
        new(Joint.Id, Number, bolt, Torque?.NewtonMetres, Pass.Angle_deg, Torque is null ? null : unit, with);
}

/// <summary>Which passes of a joint are in. Undoing the joint clears them, and so does slackening it before it is made.</summary>
public static class PassesMade
{
    /// <summary>The first pass that is not whole; null when all are, or the map asks for none.</summary>
    public static PassAtHand? AtHand(Standing standing, string joint) => Missing(standing, joint).FirstOrDefault();

    /// <summary>Every pass that is not whole.</summary>
    public static IEnumerable<PassAtHand> Missing(Standing standing, string id)
    {
        var joint = standing.Net.Joints[id];
        var bolts = joint.Bolts;
        return from pass in joint.Passes.Index()
               let number = pass.Index + 1
               let left = pass.Item.Order.Select(bolt => bolts[bolt]).Where(bolt => !standing.Tightened.Contains(new TightBolt(id, number, bolt))).ToList()
               where left.Count > 0
               select new PassAtHand(joint, number, pass.Item, left);
    }

    /// <summary>How far a joint is: "2 of 5 passes are in".</summary>
    public static string Words(Standing standing, Joint joint)
    {
        var missing = Missing(standing, joint.Id).ToList();
        var whole = joint.Passes.Count - missing.Count;
        return $"{whole} of {joint.Passes.Count} passes {(whole == 1 ? "is" : "are")} in";
    }

    internal static bool Any(Standing standing, Joint joint) => standing.Tightened.Any(bolt => bolt.Joint == joint.Id);

    /// <summary>Counts what an act says of passes and second looks, from the standing before it.</summary>
    internal static void Count(Standing standing, string by, Act act)
    {
        switch (act)
        {
            case Moved { Move: Move.JointUndone, Target: var joint }:
                standing.Tight.RemoveWhere(bolt => bolt.Joint == joint);
                standing.Hands.RemoveWhere(hand => hand.Joint == joint);
                standing.SecondLooks.Remove(joint);
                break;
            case Moved { Move: Move.JointMade, Target: var joint } when standing.IsDone(OperationKind.Undo, joint):
                Add(standing, joint, by);
                break;
            case JointTightened tightened when standing.IsDone(OperationKind.Undo, tightened.Joint):
                standing.Tight.UnionWith((tightened.Bolt is { } bolt ? [bolt] : standing.Net.Joints[tightened.Joint].Bolts)
                    .Select(name => new TightBolt(tightened.Joint, tightened.Pass, name)));
                Add(standing, tightened.Joint, by);
                break;
            case ReLookTaken look:
                standing.Looks.Add(look.Joint);
                standing.SecondLooks[look.Joint] = new ReLook(by, [.. standing.TightenedBy(look.Joint)]);
                break;
        }
    }

    private static void Add(Standing standing, string joint, string by)
    {
        if (!standing.Hands.Any(hand => hand.Joint == joint && ReLook.IsSame(hand.By, by)))
        {
            standing.Hands.Add((joint, by));
        }
    }
}
