using Lastoff.Core.Maps;

namespace Lastoff.Core.Ledger;

/// <summary>What a move leaves in doubt although it counts: a joint hidden without a last look, an opening closed that was never covered.</summary>
internal sealed class Doubts
{
    private readonly List<Joint> _unseen = [];
    private readonly List<Opening> _bare;
    private readonly string _name;

    private Doubts(Standing before, Moved moved)
    {
        var operation = before.Net.Find(moved.Move.Operation(), moved.Target);
        _name = before.Net.Operations[operation].Name;
        _bare = [.. before.Net.OpeningsOn.GetValueOrDefault(moved.Target, []).Where(o => before.IsBare(o) && !before.EverCovered.Contains(o.Id))];
        if (moved.Move is Move.PartHome or Move.PartFitted && before.Done.Contains(operation))
        {
            _unseen.AddRange(LastLooks.Owed(before, operation));
        }
    }

    /// <summary>Looks at the standing before the move.</summary>
    public static Doubts Before(Standing standing, Moved moved) => new(standing, moved);

    /// <summary>One sentence for each doubt, by the standing after the move.</summary>
    public IEnumerable<string> After(Standing standing) =>
    [
        .. _unseen.Select(joint => $"“{joint.Name}” went under “{_name}” without a last look: look, and say how it is."),
        .. _bare.Where(opening => !standing.IsBare(opening))
            .Select(opening => $"“{opening.Name}” was closed without ever having been covered: look inside, and say how it is."),
    ];
}
