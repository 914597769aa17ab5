using Lastoff.Core.Ledger;
using Lastoff.Core.Maps;

namespace Lastoff.Core.Recording;

/// <summary>The openings that a recording tells of, each on what laid it bare.</summary>
internal sealed class RecordedOpenings
{
    private readonly Dictionary<string, Opening> _openings = [];
    private readonly Dictionary<string, CoversIn> _in = [];
    private readonly Dictionary<string, string> _unseen = [];
    /// <summary>What came off last, by the device that recorded it.</summary>
    private readonly Dictionary<string, string> _bare = [];

    public IReadOnlyList<Opening> All => [.. _openings.Values];

    /// <summary>Openings that were covered before anything came off, with what must lie over them.</summary>
    public IEnumerable<(string Opening, string On)> Unseen => _unseen.Select(pair => (pair.Value, pair.Key));

    /// <summary>A part away or a hose off lays something bare; a bolt does only where nothing else did.</summary>
    public void Moved(RecordedThing thing, string device)
    {
        var isJoint = thing.Moved.Move == Move.JointUndone;
        if (thing.Moved.Move is Move.PartOff or Move.PartAside || isJoint && (RecordedThing.KindOf(thing.Reading) is JointKind.Hose or JointKind.Pipe || !_bare.ContainsKey(device)))
        {
            _bare[device] = thing.Moved.Target;
        }
    }

    /// <param name="away">The parts that are off or aside.</param>
    /// <param name="undone">The joints that are undone, in the order in which they were recorded.</param>
    public void Add(IReadOnlyList<RecordedCover> covers, string device, IReadOnlyList<Part> away, IReadOnlyList<Joint> undone)
    {
        foreach (var cover in covers)
        {
            var now = _in[cover.Opening] = In(cover.Opening).After(cover) ?? In(cover.Opening);
            if (cover.Act is OpeningCovered)
            {
                // Covered anew, it may be with something else; what lays it bare is the same.
                _openings[cover.Opening] = _openings.TryGetValue(cover.Opening, out var known)
                    ? known with { Cover = now.Whole }
                    : new Opening(cover.Opening, cover.Name, Of(cover, away, undone) ?? _bare.GetValueOrDefault(device) ?? Hidden(cover), now.Whole, 0, 0);
            }
        }
    }

    /// <summary>Covered or uncovered otherwise than by a line.</summary>
    public void Follow(string opening, Act act) => _in[opening] = In(opening).After(act);

    private CoversIn In(string opening) => _in.GetValueOrDefault(opening, CoversIn.None);

    /// <summary>“Capped the feed pipe”: the pipe that was undone by this name, the last of them. A part that is where it was lays nothing bare: it is what was undone of it, a hose before its bolts.</summary>
    private static string? Of(RecordedCover cover, IReadOnlyList<Part> away, IReadOnlyList<Joint> undone) =>
        undone.LastOrDefault(joint => IsHose(joint) && IsCalled(joint.Name, cover.Name))?.Id
        ?? away.FirstOrDefault(part => IsCalled(part.Name, cover.Name))?.Id
        ?? undone.Where(joint => joint.Holds.Contains(RecordedThing.PartId(cover.Name))).OrderBy(IsHose).LastOrDefault()?.Id
        // “The pump port” is the pump's, whatever came off since.
        ?? away.LastOrDefault(part => cover.Name.StartsWith($"{part.Name} ", StringComparison.OrdinalIgnoreCase))?.Id;

    private static bool IsHose(Joint joint) => joint.Kind is JointKind.Hose or JointKind.Pipe;

    // With its size behind it: “Feed pipe, 17 mm”.
    private static bool IsCalled(string thing, string name) => thing.Equals(name, StringComparison.OrdinalIgnoreCase) || thing.StartsWith($"{name},", StringComparison.OrdinalIgnoreCase);

    private string Hidden(RecordedCover cover)
    {
        var on = $"over:{cover.Opening}";
        _unseen[on] = cover.Name;
        return on;
    }
}
